import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { placementFrom } from '../../src/core/geometry/placement.ts';
import { extinction_per_m } from '../../src/core/haze/extinction.ts';
import { type Face, faceArea_m2 } from '../../src/core/lamps/face.ts';
import { normalize, type Vec3 } from '../../src/core/math/vec3.ts';
import { directAt, isotropic, lampAt, modelOf, opaque, pane, sheetAt } from '../support/light-models.ts';

/** Relative error against a closed form that a meter could never see (a hundredth of a stop is 0.7 %). */
const CLOSED_FORM = 0.002;

const UP: Vec3 = [0, 1, 0];
const at = (position_m: Vec3, facing: Vec3) => ({ position_m, facing: normalize(facing) });
const lambert = (luminance_cd_m2: number, face: Face) =>
  ({ kind: 'lambert', peak_cd: luminance_cd_m2 * faceArea_m2(face) }) as const;

function expectClose(got: number, wanted: number, relative = CLOSED_FORM) {
  expect(Math.abs(got / wanted - 1), `${got} against ${wanted}`).toBeLessThan(relative);
}

/** A lamp `d` above the origin, aimed straight down at it. */
function overhead(d: number, face: Face, luminance_cd_m2: number) {
  return modelOf({ lamps: [lampAt([0, d, 0], [0, 0, 0], lambert(luminance_cd_m2, face), face)] });
}

describe('a small lamp far away', () => {
  it('follows the inverse square', () => {
    // derived: E = I/d² (definition of luminous intensity); check value L2, 12 000 cd at 4 m is 750 lx
    for (const [d, wanted] of [
      [4, 750],
      [8, 187.5],
      [25, 19.2],
      [400, 0.075],
    ] as const) {
      const model = modelOf({ lamps: [lampAt([0, 0, d], [0, 0, 0], isotropic(12_000))] });
      expectClose(directAt(model, at([0, 0, 0], [0, 0, 1])).lamps[0]!.flat_lx, wanted, 1e-6);
    }
  });

  it('follows the cosine law on a tilted flat receptor', () => {
    // derived: E = I·cos θ/d² (Lambert); check value L3, 35° at 4 m is 614.364 lx
    const model = modelOf({ lamps: [lampAt([0, 0, 4], [0, 0, 0], isotropic(12_000))] });
    const tilted: Vec3 = [Math.sin((35 * Math.PI) / 180), 0, Math.cos((35 * Math.PI) / 180)];
    expectClose(directAt(model, at([0, 0, 0], tilted)).lamps[0]!.flat_lx, 614.364, 1e-5);
  });

  it('gives a street lamp’s horizontal and vertical illuminance', () => {
    // derived: check value L17, 8000 cd toward the point, 6 m high, 8 m along: E_h 48, E_v 64 lx
    const model = modelOf({ lamps: [lampAt([8, 6, 0], [0, 0, 0], isotropic(8000))] });
    expectClose(directAt(model, at([0, 0, 0], UP)).lamps[0]!.flat_lx, 48, 1e-6);
    expectClose(directAt(model, at([0, 0, 0], [1, 0, 0])).lamps[0]!.flat_lx, 64, 1e-6);
  });

  it('reads (1 + cos θ)/2 on a dome, half at the side and nothing from behind', () => {
    // Source: the cardioid response of an incident dome, check value L15 (normalisation from memory)
    const model = modelOf({ lamps: [lampAt([0, 0, 10], [0, 0, 0], isotropic(100))] });
    for (const [theta_deg, share] of [
      [0, 1],
      [60, 0.75],
      [90, 0.5],
      [120, 0.25],
      [180, 0],
    ] as const) {
      const theta = (theta_deg * Math.PI) / 180;
      const light = directAt(model, at([0, 0, 0], [Math.sin(theta), 0, Math.cos(theta)]), 'dome').lamps[0]!;
      expect(light.dome_lx).toBeCloseTo(share, 6);
      expect(light.flat_lx).toBeCloseTo(Math.max(0, Math.cos(theta)), 5);
    }
  });

  it('states distance, incidence and angle off its axis', () => {
    const model = modelOf({ lamps: [lampAt([3, 4, 0], [3, 0, 0], isotropic(100))] });
    const light = directAt(model, at([0, 0, 0], UP)).lamps[0]!;
    expect(light.distance_m).toBeCloseTo(5, 9);
    expect(light.incidence_deg).toBeCloseTo((Math.atan2(3, 4) * 180) / Math.PI, 9);
    expect(light.offAxis_deg).toBeCloseTo((Math.atan2(3, 4) * 180) / Math.PI, 9);
  });
});

describe('a Lambertian disc near by', () => {
  const disc: Face = { shape: 'disc', radius_m: 0.5 };

  it('falls short of the inverse square as the closed form says', () => {
    // published: element to coaxial disc, πLR²/(R²+d²) (Howell, Catalog of Radiation Configuration Factors); check value L4
    expectClose(directAt(overhead(2, disc, 1e4), at([0, 0, 0], UP)).lamps[0]!.flat_lx, 1847.9957);
  });

  it('agrees off axis', () => {
    // published: Howell B-13, Foote 1915 (formula from memory, checked by quadrature); check value L6
    const model = overhead(2, disc, 1e4);
    for (const [a, wanted] of [
      [0.5, 1658.3338],
      [1, 1230.9486],
      [3, 189.7596],
    ] as const) {
      expectClose(directAt(model, at([a, 0, 0], UP)).lamps[0]!.flat_lx, wanted);
    }
  });

  it('agrees on a receiver tilted 30°', () => {
    // published: F = cos ω·R²/(R²+h²) while the disc is above the receiver's horizon; check value L7
    const tilted: Vec3 = [0.5, Math.sqrt(0.75), 0];
    expectClose(directAt(overhead(2, disc, 1e4), at([0, 0, 0], tilted)).lamps[0]!.flat_lx, 1600.4112);
  });

  it('keeps the five-times rule', () => {
    // derived from the closed form: exact/point at 1, 2, 3, 5, 10 diameters; check value L5 (the rule itself: from memory)
    for (const [diameters, share] of [
      [1, 0.8],
      [2, 0.9412],
      [3, 0.973],
      [5, 0.9901],
      [10, 0.9975],
    ] as const) {
      const d = diameters * 1;
      const point_lx = (1e4 * faceArea_m2(disc)) / d ** 2;
      expectClose(directAt(overhead(d, disc, 1e4), at([0, 0, 0], UP)).lamps[0]!.flat_lx / point_lx, share);
    }
  });

  it('agrees with the whole table of radii, distances and displacements', () => {
    // derived: closed form of the file's header line, asserted against 2-D quadrature when the table was made
    for (const [R, d, a, wanted] of rowsOf('disc-parallel-plane.csv')) {
      const face: Face = { shape: 'disc', radius_m: R! };
      expectClose(directAt(overhead(d!, face, 1), at([a!, 0, 0], UP)).lamps[0]!.flat_lx, wanted!, 0.005);
    }
  });
});

describe('a Lambertian rectangle near by', () => {
  const rectangle: Face = { shape: 'rectangle', halfSize_m: [0.6, 0.3] };

  it('agrees on and off the axis', () => {
    // published: Howell B-3, Moon 1936 (from memory, checked by quadrature); check values L9, L10
    expectClose(directAt(overhead(1, rectangle, 1e4), at([0, 0, 0], UP)).lamps[0]!.flat_lx, 5588.5275);
    expectClose(directAt(overhead(3, rectangle, 1e4), at([0, 0, 0], UP)).lamps[0]!.flat_lx, 774.3219);
    expectClose(directAt(overhead(1, rectangle, 1e4), at([1, 0, 0], UP)).lamps[0]!.flat_lx, 2129.2301);
  });

  it('agrees on a receiver tilted 40° toward a short side', () => {
    // published: Lambert's contour formula (from memory, checked by quadrature); check value L12
    const tilt = (40 * Math.PI) / 180;
    const meter = at([0, 0, 0], [Math.sin(tilt), Math.cos(tilt), 0]);
    expectClose(directAt(overhead(1, rectangle, 1e4), meter).lamps[0]!.flat_lx, 4281.0604);
  });

  it('agrees standing upright on a floor', () => {
    // published: Howell B-4 (from memory, checked by quadrature); check value L11: window 1.5 × 2 m, point 2 m out
    const face: Face = { shape: 'rectangle', halfSize_m: [0.75, 1] };
    const model = modelOf({ lamps: [lampAt([0, 1, 0], [0, 1, 5], lambert(5000, face), face)] });
    expectClose(directAt(model, at([0, 0, 2], UP)).lamps[0]!.flat_lx, 877.4432);
  });

  it('agrees with the whole table of sizes, distances and displacements', () => {
    // derived: corner formula of the file's header line, asserted against 2-D quadrature when the table was made
    for (const [w, h, d, px, py, wanted] of rowsOf('rectangle-parallel-plane.csv')) {
      const face: Face = { shape: 'rectangle', halfSize_m: [w! / 2, h! / 2] };
      // Aimed straight down: r = +x, t = −z.
      expectClose(directAt(overhead(d!, face, 1), at([px!, 0, -py!], UP)).lamps[0]!.flat_lx, wanted!, 0.005);
    }
  });
});

describe('a Lambertian octagon', () => {
  it('gives far away what its area gives, and lies between its inner and outer circle near by', () => {
    // derived: point formula at 20 diameters (five-times rule error 0.06 %); closed form of the two circles
    const face: Face = { shape: 'octagon', apothem_m: 0.6 };
    const far = directAt(overhead(24, face, 1e4), at([0, 0, 0], UP)).lamps[0]!.flat_lx;
    expectClose(far, (1e4 * faceArea_m2(face)) / 24 ** 2);
    const near = directAt(overhead(1, face, 1e4), at([0, 0, 0], UP)).lamps[0]!.flat_lx;
    const circle = (R: number) => (Math.PI * 1e4 * R ** 2) / (R ** 2 + 1);
    expect(near).toBeGreaterThan(circle(0.6));
    expect(near).toBeLessThan(circle(0.6 / Math.cos(Math.PI / 8)));
  });
});

describe('things in the way', () => {
  const face: Face = { shape: 'rectangle', halfSize_m: [0.2, 0.2] };
  const lamp = lampAt([0, 0, 4], [0, 0, 0], isotropic(1600), face);

  it('block all of it', () => {
    const model = modelOf({ lamps: [lamp], parts: [opaque(sheetAt(0, 0, 2, 3, 3))] });
    const light = directAt(model, at([0, 0, 0], [0, 0, 1])).lamps[0]!;
    expect(light.flat_lx).toBe(0);
    expect(light.visible).toBe(0);
  });

  it('do not block from behind the lamp or the meter', () => {
    const behind = [opaque(sheetAt(0, 0, 4.5, 3, 3)), opaque(sheetAt(0, 0, -0.5, 3, 3))];
    const light = directAt(modelOf({ lamps: [lamp], parts: behind }), at([0, 0, 0], [0, 0, 1])).lamps[0]!;
    expect(light.visible).toBe(1);
    expectClose(light.flat_lx, 100, 0.005);
  });

  it('halve a half-hidden source', () => {
    // derived: an edge half-way that covers x < 0 hides exactly half of a face symmetric about x = 0
    const model = modelOf({ lamps: [lamp], parts: [opaque(sheetAt(-5, 0, 2, 10, 10))] });
    const light = directAt(model, at([0, 0, 0], [0, 0, 1])).lamps[0]!;
    expectClose(light.flat_lx, 50, 0.01);
    expect(Math.abs(light.visible - 0.5)).toBeLessThan(0.01);
  });

  it('throw a penumbra of the width and the slope that similar triangles give', () => {
    // derived: edge 2 m from the lamp and 2 m from the meter: penumbra as wide as the face (0.4 m), linear across it
    const model = modelOf({ lamps: [lamp], parts: [opaque(sheetAt(-5, 0, 2, 10, 10))] });
    for (const x of [-0.25, -0.15, -0.1, 0, 0.1, 0.15, 0.25]) {
      const light = directAt(model, at([x, 0, 0], [0, 0, 1]), 'flat', 0.002).lamps[0]!;
      const wanted = Math.min(1, Math.max(0, 0.5 + x / 0.4));
      expect(Math.abs(light.visible - wanted), `x = ${x}`).toBeLessThan(0.008);
    }
  });

  it('pass a share through one pane, and the product through two', () => {
    // derived: straight transmittances multiply
    const clear = directAt(modelOf({ lamps: [lamp] }), at([0, 0, 0], [0, 0, 1])).lamps[0]!.flat_lx;
    const through = (panes: number[]) =>
      directAt(
        modelOf({ lamps: [lamp], panes, parts: panes.map((_, i) => pane(sheetAt(0, 0, 1 + i, 3, 3), i)) }),
        at([0, 0, 0], [0, 0, 1]),
      ).lamps[0]!;
    expectClose(through([0.45]).flat_lx / clear, 0.45, 1e-4);
    expectClose(through([0.45, 0.9]).flat_lx / clear, 0.405, 1e-4);
    expect(through([0.45, 0.9]).visible).toBe(1);
  });
});

describe('haze', () => {
  it('takes e^(−σd) of straight light', () => {
    // derived: Beer–Lambert; check value H4, 12 000 cd at 4 m, σ 0.05: 614.05 lx
    const model = modelOf({
      lamps: [lampAt([0, 0, 4], [0, 0, 0], isotropic(12_000))],
      extinction_per_m: 0.05,
    });
    expect(directAt(model, at([0, 0, 0], [0, 0, 1])).lamps[0]!.flat_lx).toBeCloseTo(614.05, 1);
  });

  it('has its extinction from the visibility by the 2 % contrast', () => {
    // published: Koschmieder, V·σ = 3.912023 (AMS Glossary, meteorological range); check values H1, H3
    expect(200 * extinction_per_m(200)).toBeCloseTo(3.912023, 6);
    expect(extinction_per_m(10_000)).toBeCloseTo(3.912e-4, 7);
  });
});

describe('the sky', () => {
  const model = modelOf({ skyIlluminance_lx: 2 });

  it('gives an open level receptor its horizontal illuminance', () => {
    // derived: E = πL over the hemisphere; for the dome L·∫(1 + cos θ)/2 dΩ = (E/π)·(π + π/2) = 1.5·E
    const sky = directAt(model, at([0, 0, 0], UP)).sky;
    expectClose(sky.flat_lx, 2);
    expectClose(directAt(model, at([0, 0, 0], UP), 'dome').sky.dome_lx, 3);
  });

  it('gives half of it to an upright receptor', () => {
    // derived: half the sky is before it, by symmetry E/2; dome: over that hemisphere ∫cos θ dΩ = 0, so L·π = E
    expectClose(directAt(model, at([0, 0, 0], [0, 0, 1])).sky.flat_lx, 1);
    expectClose(directAt(model, at([0, 0, 0], [0, 0, 1]), 'dome').sky.dome_lx, 2);
  });

  it('is cut off by a wall as the wall covers it', () => {
    // derived: an endless wall close behind a level receptor hides half the sky and half of E
    const wall = opaque({
      kind: 'panel',
      placement: placementFrom([0, 0, -0.001]),
      halfSize_m: [5000, 5000],
      openings: [],
    });
    const half = modelOf({ skyIlluminance_lx: 2, parts: [wall] });
    expectClose(directAt(half, at([0, 0, 0], UP)).sky.flat_lx, 1, 0.005);
  });
});

function rowsOf(name: string): number[][] {
  const text = readFileSync(new URL(`../fixtures/${name}`, import.meta.url), 'utf8');
  return text
    .split('\n')
    .filter((line) => /^[\d.]/.test(line))
    .map((line) => line.split(',').map(Number));
}
