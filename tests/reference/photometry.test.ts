import { describe, expect, it } from 'vitest';
import { beamAngle_deg, fieldAngle_deg } from '../../src/core/photometry/beam-angle.ts';
import type { Distribution } from '../../src/core/photometry/distribution.ts';
import { flux_lm, zonalFlux_lm } from '../../src/core/photometry/flux.ts';
import { distributionFrom } from '../../src/core/photometry/lamp-photometry.ts';
import {
  fixtureText,
  range,
  synthetic,
  table,
  towardA,
  towardB,
  towardC,
} from '../core/photometry/fixture.ts';
import { halfLastDigit } from '../tolerances.ts';

interface ExpectedIes {
  readonly photometric_type: 'A' | 'B' | 'C';
  readonly lumens_exact_integral?: number | null;
  readonly lumens_zonal_from_file?: number;
  readonly max_candela?: number;
  readonly nadir_cd?: number;
  readonly rated_lamp_lumens_total?: number;
  readonly light_output_ratio?: number;
  readonly beam_angle_50pct_deg?: number;
  readonly field_angle_10pct_deg?: number;
  readonly spot_checks?: readonly { phi?: number; theta?: number; H?: number; V?: number; cd?: number }[];
}

interface ExpectedLdt {
  readonly flux_lm?: number;
  readonly nadir_cd?: number | object;
  readonly spot?: readonly { C: number; gamma: number; cd: number }[];
}

const IES = Object.entries(
  JSON.parse(fixtureText('synthetic/expected-ies.json')) as Record<string, ExpectedIes>,
);
const LDT = Object.entries(
  JSON.parse(fixtureText('synthetic/expected-ldt.json')) as Record<string, ExpectedLdt>,
);

/** The files print four decimals of the candela. */
const PRINTED_CD = halfLastDigit(4);

/**
 * A straight chord of f over a step h is off by (h²/12)·f″ on average. Integrated over the sphere, that is a share of
 * the flux that follows from the formula behind each file, with n the exponent of the cosine:
 *   type C, cosⁿγ:   n = 1 → −h²/12 (the slope at 90° ends the integral);  n ≥ 2 → +n·h²/12
 *   types A and B:   z = cos·cos loses h²/12 along each of its two angles
 * and for the Gaussian, I = I₀·2^−(γ/w)²: ∫ I″ sin γ dγ = I₀ − ∫ I sin γ dγ. Factors of C or of x and y in the files
 * integrate to nothing, before and after.
 */
function chordBias(file: string, type: 'A' | 'B' | 'C', exactFlux: number): number {
  const step = (deg: number): number => ((deg * Math.PI) / 180) ** 2 / 12;
  if (type !== 'C') return -2 * step(5);
  if (file.startsWith('isotropic')) return 0;
  if (file.startsWith('cos10')) return 10 * step(2.5);
  if (file.startsWith('gauss')) {
    // Steps of 0.5° to 30° and 2.5° beyond, where ∫ I″ sin γ dγ is −I′ sin γ + I cos γ at 30°, less about 2 cd.
    const [w, edge] = [Math.PI / 18, Math.PI / 6];
    const I = 50_000 * 2 ** -9;
    const slope = (-2 * Math.LN2 * edge * I) / w ** 2;
    const beyond = (2 * Math.PI * (I * Math.cos(edge) - slope * Math.sin(edge) - 2)) / exactFlux;
    return step(0.5) * ((2 * Math.PI * 50_000) / exactFlux - 1 - beyond) + step(2.5) * beyond;
  }
  return -step(file.startsWith('uplight') ? 5 : 2.5);
}

describe('LM-63 files of known content', () => {
  // derived: formulas stated with each file in expected-ies.json.
  const withFlux = IES.filter(([, expected]) => typeof expected.lumens_exact_integral === 'number');

  it.each(withFlux)('%s holds the flux of its formula', (name, expected) => {
    const exact = expected.lumens_exact_integral!;
    const relative = flux_lm(synthetic(name).distribution) / exact - 1;
    // Within 1e-3, except where the straight lines between the file's own angles alone are further off: types A and B
    // on their 5° grid (1.3e-3) and cos¹⁰ on 2.5° (1.6e-3). What is left beside that is of the order h⁴.
    const bias = chordBias(name, expected.photometric_type, exact);
    expect(Math.abs(relative)).toBeLessThan(Math.max(1e-3, 1.02 * Math.abs(bias)));
    expect(Math.abs(relative - bias)).toBeLessThan(1.2e-5);
  });

  it.each(IES.filter(([, expected]) => expected.lumens_zonal_from_file !== undefined))(
    '%s gives the total of the zonal rule to its printed digits',
    (name, expected) => {
      const zonal = zonalFlux_lm(synthetic(name).distribution);
      expect(Math.abs(zonal - expected.lumens_zonal_from_file!)).toBeLessThan(1.01 * PRINTED_CD);
    },
  );

  it.each(IES.filter(([, expected]) => expected.max_candela !== undefined))(
    '%s has its maximum',
    (name, expected) => {
      const { candela } = synthetic(name).distribution;
      expect(Math.max(...candela)).toBeCloseTo(expected.max_candela!, 3);
    },
  );

  it.each(IES.filter(([, expected]) => expected.spot_checks !== undefined))(
    '%s has its spot values',
    (name, expected) => {
      const { distribution } = synthetic(name);
      for (const { phi, theta, H, V, cd } of expected.spot_checks!) {
        if (cd === undefined) continue;
        const found =
          phi !== undefined
            ? towardC(distribution, phi, theta!)
            : (expected.photometric_type === 'A' ? towardA : towardB)(distribution, H!, V!);
        expect(Math.abs(found - cd)).toBeLessThan(PRINTED_CD);
      }
    },
  );

  it.each(IES.filter(([, expected]) => expected.nadir_cd !== undefined))(
    '%s has its nadir',
    (name, expected) => {
      // published semantics of the multipliers: Ashdown § 5, LM-63-2019 (F6, F7).
      expect(towardC(synthetic(name).distribution, 0, 0)).toBeCloseTo(expected.nadir_cd!, 9);
    },
  );

  it('the two-lamp file has its light output ratio', () => {
    const [name, expected] = IES.find(([, e]) => e.light_output_ratio !== undefined)!;
    const file = synthetic(name);
    expect(file.lampLumens_lm).toBe(expected.rated_lamp_lumens_total);
    expect(zonalFlux_lm(file.distribution) / file.lampLumens_lm!).toBeCloseTo(
      expected.light_output_ratio!,
      6,
    );
  });

  it.each(IES.filter(([, expected]) => expected.beam_angle_50pct_deg !== undefined))(
    '%s has its beam and field angle',
    (name, expected) => {
      // derived: analytic half- and tenth-value angles (L20); 0.05° for the straight lines between the angles.
      const { distribution } = synthetic(name);
      for (const plane of ['c0_deg', 'c90_deg', 'mean_deg'] as const) {
        expect(Math.abs(beamAngle_deg(distribution)[plane] - expected.beam_angle_50pct_deg!)).toBeLessThan(
          0.05,
        );
        expect(Math.abs(fieldAngle_deg(distribution)[plane] - expected.field_angle_10pct_deg!)).toBeLessThan(
          0.05,
        );
      }
    },
  );

  it('write one field in types A, B and C alike', () => {
    // derived: I = 1000 z (1 + 0.5 x + 0.25 y) in all three files; chords of 2.5°, 5° and 15° are off by h²/8·f″.
    const [a, b, c] = ['field-typeA-full.ies', 'field-typeB-full.ies', 'field-typeC-axis-on-beam.ies'].map(
      (name) => synthetic(name).distribution,
    ) as [Distribution, Distribution, Distribution];
    const radians = Math.PI / 180;
    for (const gamma of range(3, 87, 7)) {
      for (const phi of range(1, 351, 25)) {
        const x = Math.sin(gamma * radians) * Math.cos(phi * radians);
        const y = Math.sin(gamma * radians) * Math.sin(phi * radians);
        const I = 1000 * Math.cos(gamma * radians) * (1 + 0.5 * x + 0.25 * y);
        for (const distribution of [a, b, c])
          expect(Math.abs(towardC(distribution, phi, gamma) - I)).toBeLessThan(5);
      }
    }
  });
});

describe('EULUMDAT files of known content', () => {
  // derived: formulas stated with each file in expected-ldt.json.
  it.each(LDT.filter(([, expected]) => expected.flux_lm !== undefined))(
    '%s holds its flux',
    (name, expected) => {
      const file = synthetic(name);
      expect(Math.abs(flux_lm(file.distribution) / expected.flux_lm! - 1)).toBeLessThan(1e-3);
      // The corner-mean rule is exact for a cosine, up to the digits in the file.
      expect(Math.abs(zonalFlux_lm(file.distribution) / expected.flux_lm! - 1)).toBeLessThan(1e-6);
    },
  );

  it.each(LDT.filter(([, expected]) => typeof expected.nadir_cd === 'number'))(
    '%s has its nadir',
    (name, expected) => {
      expect(towardC(synthetic(name).distribution, 0, 0)).toBeCloseTo(expected.nadir_cd as number, 9);
    },
  );

  it.each(LDT.filter(([, expected]) => expected.spot !== undefined))(
    '%s has its spot values',
    (name, expected) => {
      for (const { C, gamma, cd } of expected.spot!) {
        // Four decimals of cd/klm at 5 klm.
        expect(Math.abs(towardC(synthetic(name).distribution, C, gamma) - cd)).toBeLessThan(5 * PRINTED_CD);
      }
    },
  );
});

describe('known distributions', () => {
  it('have the zonal constants of the handbook', () => {
    // from memory: IES Lighting Handbook, 10° zones from nadir (F1); checked by 2π(cos θ1 − cos θ2).
    const constants = [0.0955, 0.2835, 0.4629, 0.6282, 0.7744, 0.8972, 0.9926, 1.0579, 1.0911];
    constants.forEach((constant, zone) => {
      const one = table('C', [10 * zone, 10 * (zone + 1)], [0], () => 1);
      expect(Math.abs(zonalFlux_lm(one) - constant)).toBeLessThan(halfLastDigit(4));
    });
  });

  it('have the beam and field angles of their formula', () => {
    // derived: 50 % and 10 % of the maximum (L18 to L20): 2 acos 0.5^(1/n), 2 acos 0.1^(1/n), 2w√log2(2 or 10).
    const fine = range(0, 90, 0.25);
    const cos10 = table('C', fine, [0], (_, v) => Math.cos((v * Math.PI) / 180) ** 10);
    const gaussian = table('C', fine, [0], (_, v) => 2 ** -((v / 10) ** 2));
    for (const [distribution, beam, field] of [
      [{ kind: 'lambert', peak_cd: 1 }, 120, 168.52],
      [cos10, 42.17, 74.82],
      [gaussian, 20, 36.45],
    ] as const) {
      expect(Math.abs(beamAngle_deg(distribution).mean_deg - beam)).toBeLessThan(0.01);
      expect(Math.abs(fieldAngle_deg(distribution).mean_deg - field)).toBeLessThan(0.01);
    }
  });

  it('turn lumens into candela', () => {
    // derived: 1000 lm Lambertian, isotropic and in a uniform cone of 20° (L21).
    expect(towardC(distributionFrom({ kind: 'diffuse', flux_lm: 1000 }), 0, 0)).toBeCloseTo(318.31, 3);
    const isotropic = table('C', [0, 180], [0], () => 79.5775);
    expect(flux_lm(isotropic)).toBeCloseTo(1000, 2);
    const cone = distributionFrom({ kind: 'lumens', flux_lm: 1000, beam_deg: 20, field_deg: 20.0001 });
    // The edge of the profile is 5e-6 of the beam wide.
    expect(Math.abs(towardC(cone, 0, 0) / 10_476.06 - 1)).toBeLessThan(1e-5);
  });

  it('show the bias of the zonal rule on cos¹⁰', () => {
    // derived: 2π·20 000/11 = 11 423.97 lm against 11 460.20 by the rule on the 2.5° file (F5).
    const { distribution } = synthetic('cos10-flood-C.ies');
    expect(Math.abs(zonalFlux_lm(distribution) - 11_460.2)).toBeLessThan(0.01);
    const fine = table('C', range(0, 90, 0.025), [0], (_, v) => 20_000 * Math.cos((v * Math.PI) / 180) ** 10);
    expect(Math.abs(flux_lm(fine) - 11_423.97)).toBeLessThan(0.01);
  });
});
