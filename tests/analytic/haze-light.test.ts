import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { hazeAlong, newHazeStretches } from '../../src/core/haze/haze-region.ts';
import { mixed32 } from '../../src/core/math/kronecker.ts';
import { seededRandom, startPath } from '../../src/core/math/random.ts';
import type { Vec3 } from '../../src/core/math/vec3.ts';
import { newConnection } from '../../src/core/transport/connection.ts';
import { directLight } from '../../src/core/transport/direct.ts';
import { connectHaze } from '../../src/core/transport/haze-connection.ts';
import { BATCHES, indirectError_lx, newIndirect, refineIndirect } from '../../src/core/transport/indirect.ts';
import { newTracer } from '../../src/core/transport/tracer.ts';
import { hazeBox, isotropic, lampAt, modelOf, opaque } from '../support/light-models.ts';

const SEED = 11;

describe('light scattered once along a line of sight', () => {
  it('agrees with the airlight table within 1 %', () => {
    // derived: quadrature to 1e-10 (file header; Sun et al. 2005, Pegoraro & Parker 2009); every ninth of the 216 rows
    const rows = readFileSync(new URL('../fixtures/airlight-point-source.csv', import.meta.url), 'utf8')
      .split('\n')
      .filter((line) => /^[\d.]/.test(line))
      .map((line) => line.split(',').map(Number) as [number, number, number, number, number, number, number])
      .filter((_, i) => i % 9 === 0);
    expect(rows.length).toBe(24);
    const found = newConnection();
    for (const [sigma, albedo, g, x0, h, D, wanted] of rows) {
      const lamp = lampAt([x0, h, 0], [x0, 0, 0], isotropic(1e4));
      const tracer = newTracer(modelOf({ lamps: [lamp], extinction_per_m: sigma, albedo, anisotropy: g }));
      const random = seededRandom(mixed32(SEED + Math.round(1e4 * sigma + x0)));
      const stretches = newHazeStretches();
      hazeAlong(tracer.hazeRegions, 0, 0, 0, 1, 0, 0, D, stretches);
      expect(stretches.length_m).toBeCloseTo(D, 9);
      const n = 40_000;
      let L = 0;
      for (let i = 0; i < n; i++) {
        startPath(random, i);
        if (connectHaze(tracer, random, 0, 0, 0, 1, 0, 0, stretches, 1, found)) L += found.g / n;
      }
      expect(Math.abs(L / 1e4 / wanted - 1), `σ ${sigma}, g ${g}, x₀ ${x0}, h ${h}, D ${D}`).toBeLessThan(
        0.01,
      );
    }
  });
});

describe('haze in boxes', () => {
  const BOXES = [
    hazeBox([2, -1, -1], [5, 1, 1]),
    hazeBox([4, -2, -1], [6, 3, 1]),
    hazeBox([9, -1, -1], [11, 4, 1]),
  ];

  it('takes light only where it hangs', () => {
    // derived: Bouguer–Lambert–Beer over 2 m of the first box, 1 m of the second beyond it and 2 m of the third
    const lamp = lampAt([12, 0, 0], [0, 0, 0], isotropic(144));
    const model = modelOf({ lamps: [lamp], extinction_per_m: 0.2, hazeRegions: BOXES });
    const meter = { position_m: [0, 0, 0] as Vec3, facing: [1, 0, 0] as Vec3 };
    const { lamps } = directLight(model, meter, { receptor: 'flat', error_stops: 0.001, maxSamples: 4096 });
    expect(lamps[0]!.hazed_m).toBeCloseTo(6, 9);
    expect(lamps[0]!.flat_lx).toBeCloseTo(Math.exp(-0.2 * 6), 9);
  });

  it('glows only where it hangs', () => {
    // derived: the airlight integral by Simpson's rule in this test, stretch by stretch, isotropic scattering
    const [sigma, x0, h] = [0.15, 7, 2];
    const lamp = lampAt([x0, h, 0], [x0, 0, 0], isotropic(1e4));
    const model = modelOf({ lamps: [lamp], extinction_per_m: sigma, albedo: 0.9, hazeRegions: BOXES });
    const tracer = newTracer(model);
    const inside = (x: number, y: number) =>
      (x > 2 && x < 5 && y < 1) || (x > 4 && x < 6 && y < 3) || (x > 9 && x < 11 && y < 4);
    const hazedTo = (x: number, y: number, steps = 4000) => {
      let length = 0;
      for (let i = 0; i < steps; i++) {
        const s = (i + 0.5) / steps;
        if (inside(x + s * (x0 - x), y + s * (h - y))) length += Math.hypot(x0 - x, h - y) / steps;
      }
      return length;
    };
    const along = (x: number) => Math.min(Math.max(x - 2, 0), 4) + Math.min(Math.max(x - 9, 0), 2);
    const integrand = (x: number) =>
      (0.9 * sigma * 1e4 * Math.exp(-sigma * (along(x) + hazedTo(x, 0)))) /
      (4 * Math.PI * ((x0 - x) ** 2 + h * h));
    const simpson = (from: number, to: number, n = 40) => {
      const step = (to - from) / n;
      let sum = integrand(from + 1e-9) + integrand(to - 1e-9);
      for (let i = 1; i < n; i++) sum += (i % 2 ? 4 : 2) * integrand(from + i * step);
      return (sum * step) / 3;
    };
    const wanted = simpson(2, 6) + simpson(9, 11);
    const stretches = newHazeStretches();
    hazeAlong(tracer.hazeRegions, 0, 0, 0, 1, 0, 0, 20, stretches);
    const random = seededRandom(SEED);
    const found = newConnection();
    let L = 0;
    const n = 40_000;
    for (let i = 0; i < n; i++) {
      startPath(random, i);
      if (connectHaze(tracer, random, 0, 0, 0, 1, 0, 0, stretches, 1, found)) L += found.g / n;
    }
    expect(Math.abs(L / wanted - 1)).toBeLessThan(0.01);
  });
});

describe('multiple scattering', () => {
  it('loses nothing: inside a black sphere all of the lamp’s light arrives, whatever the haze', () => {
    // derived: albedo 1 and a lamp of Φ = 4πI at the centre of a black sphere: by symmetry every point of the wall gets
    // I/R², straight and scattered together, for any extinction and any phase function
    // The same haze in boxes that touch and overlap is the same haze.
    const tiles = [
      hazeBox([-5, -5, -5], [0, 5, 5]),
      hazeBox([0, -5, -5], [5, 1, 5]),
      hazeBox([-1, 0, -5], [5, 5, 5]),
    ];
    for (const [sigma, g, hazeRegions] of [
      [0.05, 0, undefined],
      [0.3, 0.8, undefined],
      [0.6, 0.5, undefined],
      [0.3, 0.8, tiles],
    ] as const) {
      const R = 4;
      const model = modelOf({
        lamps: [lampAt([0, 0, 0], [1, 0, 0], isotropic(1600))],
        parts: [opaque({ kind: 'sphere', centre_m: [0, 0, 0], radius_m: R })],
        extinction_per_m: sigma,
        albedo: 1,
        anisotropy: g,
        ...(hazeRegions && { hazeRegions }),
      });
      const meter = { position_m: [0, R - 1e-4, 0] as Vec3, facing: [0, -1, 0] as Vec3 };
      const direct = directLight(model, meter, { receptor: 'flat', error_stops: 0.001, maxSamples: 1 << 14 });
      const indirect = newIndirect(newTracer(model), meter, SEED);
      refineIndirect(indirect, 3000);
      const scattered =
        indirect.flatByBatch.reduce((sum, batch) => sum + batch, 0) / (BATCHES * indirect.paths);
      const error = indirectError_lx(indirect, 'flat');
      const total = direct.lamps[0]!.flat_lx + scattered;
      expect(error / 100, `σ ${sigma}`).toBeLessThan(0.05);
      expect(Math.abs(total - 100), `σ ${sigma}, g ${g}: ${total} ± ${error}`).toBeLessThan(
        1.6 * error + 0.3,
      );
    }
  });
});

describe('the sky through a level layer of haze', () => {
  it('lights the ground below as radiative equilibrium between two plates says', () => {
    // published, from memory: M. A. Heaslet and R. F. Warming, Int. J. Heat Mass Transfer 8, 1965: flux between black plates, a
    // grey layer between them, against that without it. Haze that scatters all round and swallows nothing is that layer, the sky
    // one plate, and the dark below the other.
    for (const [depth, share] of [
      [0.2, 0.8491],
      [0.5, 0.704],
      [1, 0.5532],
    ] as const) {
      const [thick_m, wide_m] = [10, 4000];
      const model = modelOf({
        skyIlluminance_lx: 3,
        extinction_per_m: depth / thick_m,
        albedo: 1,
        anisotropy: 0,
        hazeRegions: [hazeBox([-wide_m, 0, -wide_m], [wide_m, thick_m, wide_m])],
      });
      const meter = { position_m: [0, 0, 0] as Vec3, facing: [0, 1, 0] as Vec3 };
      const direct = directLight(model, meter, { receptor: 'flat', error_stops: 0.005, maxSamples: 1 << 16 });
      const indirect = newIndirect(newTracer(model), meter, SEED);
      refineIndirect(indirect, 4096);
      const scattered_lx = indirect.flatByBatch.reduce((sum, x) => sum + x, 0) / BATCHES / indirect.paths;
      const error_lx = indirectError_lx(indirect, 'flat') + direct.sky.error_lx;
      expect(error_lx, `seed ${SEED}`).toBeLessThan(0.04);
      expect(Math.abs(direct.sky.flat_lx + scattered_lx - 3 * share), `depth ${depth}`).toBeLessThan(
        2 * error_lx,
      );
    }
  });
});
