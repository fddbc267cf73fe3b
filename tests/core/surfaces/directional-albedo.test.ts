import { describe, expect, it } from 'vitest';
import { ALBEDO_NODES, albedoAt, albedoTables } from '../../../src/core/surfaces/directional-albedo.ts';
import { conductorReflectance, dielectricReflectance } from '../../../src/core/surfaces/fresnel.ts';
import { ALPHA_MIN, normalDensity, visibility } from '../../../src/core/surfaces/ggx.ts';
import { ALL_HALF_VECTORS, overReflections, tilted } from './support/hemisphere.ts';

/** What the file claims for its tables, quadrature and interpolation together. */
const TABLE = 2e-3;

/** E by brute force over half vectors, another path than that of the table. */
function integrated(alpha: number, theta_deg: number, F: (cosTheta: number) => number): number {
  const o = tilted(theta_deg);
  return overReflections(alpha, o, ALL_HALF_VECTORS, 240, (hx, hy, hz, ix, iy, iz) => {
    if (iz <= 0) return 0;
    const cosTheta = ix * hx + iy * hy + iz * hz;
    return F(cosTheta) * normalDensity(alpha, hx, hy, hz) * visibility(alpha, iz, o[2]) * iz;
  });
}

describe('the tabulated albedo', () => {
  it.each([
    ['water', (c: number) => dielectricReflectance(c, 1.33)],
    ['a coat of 1.5', (c: number) => dielectricReflectance(c, 1.5)],
    ['aluminium at 550 nm', (c: number) => conductorReflectance(c, 1.01519, 6.62728)],
  ])('of %s is the integral of its lobe', (_name, F) => {
    // derived: midpoint integration over half vectors
    for (const alpha of [0.0016, 0.01, 0.09, 0.36, 1]) {
      const [table] = albedoTables(alpha, [F]);
      for (const theta_deg of [0, 15, 40, 60, 75, 85, 89]) {
        const E = albedoAt(table!, tilted(theta_deg)[2]);
        expect(Math.abs(E - integrated(alpha, theta_deg, F)), `α ${alpha}, ${theta_deg}°`).toBeLessThan(
          TABLE,
        );
      }
    }
  });

  it('of the smoothest surface is Fresnel’s reflectance', () => {
    // derived: one smooth interface, for a lobe 0.15° wide
    const [table] = albedoTables(ALPHA_MIN, [(c) => dielectricReflectance(c, 1.5)]);
    for (const theta_deg of [0, 30, 45, 60, 75, 85]) {
      const c = tilted(theta_deg)[2];
      expect(Math.abs(albedoAt(table!, c) - dielectricReflectance(c, 1.5))).toBeLessThan(TABLE);
    }
  });

  it('has the mean that diffuse light on glass and water is known to reflect', () => {
    // published: 0.092 for n = 1.5, 0.066 for n = 1.33 (D. B. Judd, J. Res. NBS 29, 329, 1942; figures from memory)
    const [glass] = albedoTables(ALPHA_MIN, [(c) => dielectricReflectance(c, 1.5)]);
    const [water] = albedoTables(ALPHA_MIN, [(c) => dielectricReflectance(c, 1.33)]);
    expect(Math.abs(glass!.mean - 0.092)).toBeLessThan(1e-3);
    expect(Math.abs(water!.mean - 0.066)).toBeLessThan(1e-3);
  });

  it('has the mean of its own interpolation', () => {
    // derived: 2∫E·c·dc by a fine midpoint sum of albedoAt
    const [table] = albedoTables(0.0016, [(c) => dielectricReflectance(c, 1.5)]);
    const N = 200_000;
    let mean = 0;
    for (let k = 0; k < N; k++) {
      const t = (k + 0.5) / N;
      mean += (4 * t ** 3 * albedoAt(table!, t * t)) / N;
    }
    expect(Math.abs(mean - table!.mean)).toBeLessThan(1e-8);
  });

  it('is at a node what the table holds, and stays in range at both ends', () => {
    const [table] = albedoTables(0.09, [(c) => dielectricReflectance(c, 1.5)]);
    for (let j = 0; j < ALBEDO_NODES; j++) {
      expect(albedoAt(table!, (j / (ALBEDO_NODES - 1)) ** 4)).toBeCloseTo(table!.E[j]!, 10);
    }
    expect(albedoAt(table!, 1 + 1e-15)).toBeCloseTo(table!.E[ALBEDO_NODES - 1]!, 10);
  });

  it('is zero for mirrors that reflect nothing, and less than 1 where mirrors hide each other', () => {
    const [none, all] = albedoTables(0.36, [() => 0, () => 1]);
    expect(none!.mean).toBe(0);
    for (const E of all!.E) expect(E).toBeLessThanOrEqual(1 + 1e-12);
    // regression, quoted in ggx.ts: a perfect reflector of α = 0.36 loses 20 % of diffuse light
    expect(all!.mean).toBeCloseTo(0.8, 2);
  });
});
