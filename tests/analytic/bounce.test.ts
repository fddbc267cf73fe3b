import { describe, expect, it } from 'vitest';
import { placementFrom } from '../../src/core/geometry/placement.ts';
import type { Part } from '../../src/core/geometry/shape.ts';
import type { Face } from '../../src/core/lamps/face.ts';
import type { LightModel } from '../../src/core/light-model/light-model.ts';
import { normalize, type Vec3 } from '../../src/core/math/vec3.ts';
import { BATCHES, indirectError_lx, newIndirect, refineIndirect } from '../../src/core/transport/indirect.ts';
import { newTracer } from '../../src/core/transport/tracer.ts';
import { isotropic, lampAt, modelOf, opaque, pane, sheetAt } from '../support/light-models.ts';

const SEED = 7;

/** All indirect light, luminous, and the half-width of its 95 % interval. */
function indirectAt(
  model: LightModel,
  position_m: Vec3,
  facing: Vec3,
  receptor: 'flat' | 'dome',
  paths: number,
) {
  const indirect = newIndirect(newTracer(model), { position_m, facing: normalize(facing) }, SEED);
  refineIndirect(indirect, paths);
  const sums = receptor === 'flat' ? indirect.flatByBatch : indirect.domeByBatch;
  const E_lx = sums.reduce((sum, batch) => sum + batch, 0) / (BATCHES * paths);
  return { E_lx, error_lx: indirectError_lx(indirect, receptor) };
}

/**
 * `relative` bounds the stated error itself, so that the check means something; `blur` is what roughness truly changes against
 * the closed form of a perfect mirror.
 */
function expectWithin(
  got: { E_lx: number; error_lx: number },
  wanted: number,
  relative: number,
  blur = 0.001,
) {
  const { E_lx, error_lx } = got;
  expect(error_lx / wanted, `error ±${error_lx} of ${wanted}`).toBeLessThan(relative);
  expect(Math.abs(E_lx - wanted), `${E_lx} ± ${error_lx} against ${wanted}`).toBeLessThan(
    1.6 * error_lx + blur * wanted,
  );
}

const grey = (rho: number) => ({ reflectance: [rho, rho, rho] as Vec3 });

describe('bounce', () => {
  it('inside a white sphere is that of the integrating sphere', () => {
    // derived: a source of flux Φ in a sphere of radius R and reflectance ρ puts Φρ/(4πR²(1 − ρ)) of reflected light on the
    // wall, everywhere alike (integrating-sphere law; e.g. CIE 84)
    for (const rho of [0.2, 0.5, 0.8]) {
      const model = modelOf({
        lamps: [lampAt([0.3, 0, 0], [1, 0, 0], isotropic(100))],
        parts: [opaque({ kind: 'sphere', centre_m: [0, 0, 0], radius_m: 2 })],
        surfaces: [grey(rho)],
      });
      const wanted = (4 * Math.PI * 100 * rho) / (4 * Math.PI * 4 * (1 - rho));
      expectWithin(indirectAt(model, [0, 1.99999, 0], [0, -1, 0], 'flat', 2000), wanted, 0.03);
    }
  });

  it('from a lit floor onto a wall-mounted cell is the floor’s luminance over its configuration factor', () => {
    // derived: an endless floor of luminance L gives an upright cell E = πL/2; lit by a far lamp straight above
    const model = modelOf({
      lamps: [lampAt([0, 2000, 0], [0, 0, 0], isotropic(4e8))],
      parts: [opaque({ kind: 'box', placement: placementFrom([0, -0.5, 0]), halfSize_m: [400, 0.5, 400] })],
      surfaces: [grey(0.4)],
    });
    const L = (100 * 0.4) / Math.PI;
    expectWithin(indirectAt(model, [0, 1, 0], [0, 0, 1], 'flat', 2000), (Math.PI * L) / 2, 0.05);
  });

  it('reports nothing where nothing reflects', () => {
    const model = modelOf({
      lamps: [lampAt([0, 2, 0], [0, 0, 0], isotropic(100))],
      parts: [opaque(sheetAt(0, 0, -1, 4, 4))],
    });
    expect(indirectAt(model, [0, 0, 0], [0, 0, -1], 'flat', 50).E_lx).toBe(0);
  });
});

describe('light thrown by a glossy face', () => {
  const disc: Face = { shape: 'disc', radius_m: 0.05 };
  const lamp = lampAt([0, 2, 1], [0, 0.5, 0], isotropic(1000), disc);

  it('is that of the mirrored lamp times Fresnel', () => {
    // derived: unfolded lamp: E = F(θ)·I/(d₁ + d₂)²·cos; black base under a coat of n = 1.5, mirror in the plane z = 0
    for (const [roughness, blur] of [
      [0, 0.0005],
      [0.06, 0.001],
      [0.12, 0.003],
    ] as const) {
      const model = modelOf({
        lamps: [lamp],
        parts: [opaque(sheetAt(0, 0, 0, 20, 20))],
        surfaces: [{ roughness, coatIor: 1.5 }],
      });
      const whole = Math.hypot(2, 2);
      const wanted = (fresnel(2 / whole, 1.5) * 1000) / whole ** 2;
      // The meter looks straight at the mirror image.
      expectWithin(indirectAt(model, [0, 0, 1], [0, 2, -2], 'flat', 1500), wanted, 0.02, blur);
    }
  });

  it('falls only where the face is, through its openings not', () => {
    const face = sheetAt(0, 0, 0, 20, 20);
    const opening = { left_m: -2, bottom_m: 0, right_m: 2, top_m: 3 };
    const model = modelOf({
      lamps: [lamp],
      parts: [opaque({ ...face, openings: [opening] } as typeof face)],
      surfaces: [{ roughness: 0.032, coatIor: 1.5 }],
    });
    const clean = (fresnel(2 / Math.hypot(2, 2), 1.5) * 1000) / 8;
    expect(indirectAt(model, [0, 0, 1], [0, 2, -2], 'flat', 500).E_lx / clean).toBeLessThan(0.01);
  });

  it('can nearly double the light beside a long glossy side', () => {
    // derived: raked at 3° incidence from the plane, a coat of n = 1.5 reflects most of the light (exact Fresnel)
    const raking = lampAt([25, 1.5, 0.6], [0, 1.5, 0.6], isotropic(1e5), disc);
    const model = modelOf({
      lamps: [raking],
      parts: [opaque(sheetAt(10, 1.5, 0, 40, 3))],
      surfaces: [{ roughness: 0.04, coatIor: 1.5 }],
    });
    const whole = Math.hypot(25, 1.2);
    const wanted = (fresnel(1.2 / whole, 1.5) * 1e5) / whole ** 2;
    const thrown = indirectAt(model, [0, 1.5, 0.6], [25, 0, -1.2], 'flat', 2000);
    // At 3° from the plane a lobe of α = 0.0016 is a good part of the angle itself.
    expectWithin(thrown, wanted, 0.05, 0.005);
    expect(wanted / (1e5 / 25 ** 2)).toBeGreaterThan(0.6);
  });
});

describe('a scattering pane', () => {
  it('lit from behind is a source of the share it scatters', () => {
    // derived: a far lamp lights an endless pane square on with 100 lx; all that it scatters crosses a parallel plane, so a
    // flat cell before it reads scattered·100 (flux is conserved, and the pane looks alike from everywhere)
    const lamp = lampAt([0, 0, -2000], [0, 0, 0], isotropic(4e8));
    const parts: Part[] = [pane(sheetAt(0, 0, 0, 60, 60))];
    const model = modelOf({ lamps: [lamp], parts, panes: [{ direct: 0, scattered: 0.6, spread_deg: 60 }] });
    expectWithin(indirectAt(model, [0, 0, 0.5], [0, 0, -1], 'flat', 4000), 60, 0.05);
  });
});

function fresnel(cosTheta: number, n: number): number {
  const c = Math.sqrt(1 - (1 - cosTheta ** 2) / n ** 2);
  const s = (cosTheta - n * c) / (cosTheta + n * c);
  const p = (n * cosTheta - c) / (n * cosTheta + c);
  return (s * s + p * p) / 2;
}
