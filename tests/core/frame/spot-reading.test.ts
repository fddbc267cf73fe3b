import { describe, expect, it } from 'vitest';
import { readSpot } from '../../../src/core/frame/spot-reading.ts';
import { newTracer } from '../../../src/core/transport/tracer.ts';
import { isotropic, lampAt, modelOf, opaque, sheetAt } from '../../support/light-models.ts';

const OPTIONS = { zero_cd_m2: 12.5, error_stops: 0.02 };
const FACE = { shape: 'disc', radius_m: 0.1 } as const;
/** 1000 cd at the origin's height, its face toward +z. */
const lamp = lampAt([0, 0, 0], [0, 0, 1], isotropic(1000), FACE, { photometryUncertainty_stops: 2 / 3 });
const read = (options: Parameters<typeof modelOf>[0], from: readonly [number, number, number], z: 1 | -1) =>
  readSpot(newTracer(modelOf(options)), from, [0, 0, z], OPTIONS);

describe('a spot reading', () => {
  it('knows a lamp’s own face, and that no reflectance is in it', () => {
    // derived: L = I·e^(−σd)/A; haze that swallows (albedo 0) takes σ·d·log₂e = 0.01·10·1.4427 = 0.1443 stop, so the
    // inputs are √((2/3)² + 0.1443²) = 0.6821
    const spot = read({ lamps: [lamp], extinction_per_m: 0.01, albedo: 0 }, [0, 0, 10], -1);
    expect(spot.seen).toEqual({ kind: 'lamp', lamp: 0, distance_m: 10 });
    // Paths are scattered by chance, so even straight light has its numerical error: OPTIONS asks 0.02 stop, 1.4 %.
    expect(spot.luminance_cd_m2 / ((1000 * Math.exp(-0.1)) / (Math.PI * 0.01))).toBeCloseTo(1, 2);
    expect(spot.uncertainty.input_stops).toBeCloseTo(0.6821, 4);
    expect(spot.lamps_cd_m2[0]).toBeCloseTo(spot.luminance_cd_m2, 6);
  });

  it('adds what haze takes on the way to a surface and back, and the surface', () => {
    // derived: lamp to card 20 m, card to eye 4 m: 0.01·24·1.4427 = 0.3462 stop; √((2/3)² + 0.3462² + (1/2)²) = 0.9024
    const card = opaque(sheetAt(0, 0, 20, 2, 2));
    const surfaces = [{ reflectance: [0.18, 0.18, 0.18] as const }];
    const spot = read(
      { lamps: [lamp], parts: [card], surfaces, extinction_per_m: 0.01, albedo: 0 },
      [0, 0, 16],
      1,
    );
    expect(spot.seen).toEqual({ kind: 'thing', owner: 0, distance_m: 4 });
    expect(spot.luminance_cd_m2 / ((0.18 / Math.PI) * (1000 / 400) * Math.exp(-0.24))).toBeCloseTo(1, 2);
    expect(spot.uncertainty.input_stops).toBeCloseTo(0.9024, 3);
  });

  it('counts only the haze that a region fills', () => {
    // derived: without haze on either way √((2/3)² + (1/2)²) = 0.8333
    const card = opaque(sheetAt(0, 0, 20, 2, 2));
    const surfaces = [{ reflectance: [0.18, 0.18, 0.18] as const }];
    const elsewhere = {
      placement: { origin_m: [50, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
      halfSize_m: [1, 1, 1],
    } as const;
    const haze = { extinction_per_m: 0.01, albedo: 0, hazeRegions: [elsewhere] };
    const spot = read({ lamps: [lamp], parts: [card], surfaces, ...haze }, [0, 0, 16], 1);
    expect(spot.uncertainty.input_stops).toBeCloseTo(0.8333, 3);
  });

  it('looks at the sky where there is nothing else', () => {
    const spot = readSpot(
      newTracer(modelOf({ skyIlluminance_lx: Math.PI })),
      [0, 0, 0],
      [0, 0.6, 0.8],
      OPTIONS,
    );
    // derived: a uniform dome of E has L = E/π; its stop, and no surface
    expect(spot.seen).toEqual({ kind: 'sky' });
    expect(spot.luminance_cd_m2).toBeCloseTo(1, 4);
    expect(spot.uncertainty.input_stops).toBeCloseTo(1, 6);
  });
});
