import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readSpot } from '../../../src/core/frame/spot-reading.ts';
import { placementFrom } from '../../../src/core/geometry/placement.ts';
import type { Shape } from '../../../src/core/geometry/shape.ts';
import { placeOnFace } from '../../../src/core/lamps/face.ts';
import type { LightModel } from '../../../src/core/light-model/light-model.ts';
import { radiansFromDegrees } from '../../../src/core/math/angle.ts';
import { dot, normalize, subtract, type Vec3 } from '../../../src/core/math/vec3.ts';
import { findGlints } from '../../../src/core/mirror/find-glints.ts';
import { lobeLuminance_cd_m2 } from '../../../src/core/mirror/lobe-luminance.ts';
import type { Distribution } from '../../../src/core/photometry/distribution.ts';
import { evaluateSurface } from '../../../src/core/surfaces/evaluate.ts';
import { metalIndex } from '../../../src/core/surfaces/metal-index.ts';
import { newTracer } from '../../../src/core/transport/tracer.ts';
import { isotropic, lampAt, modelOf, opaque, sheetAt } from '../../support/light-models.ts';
import { randomStream } from '../geometry/support/random.ts';
import { shippedMetal } from '../surfaces/support/metals.ts';
import { cameraAt, sceneMaker, somewhere } from './support/mirror-scene.ts';

const SEED = 5;
const zero_cd_m2 = 1;
/** Asked of the whole: a glint against the core's own spot meter. */
const WITHIN_STOPS = 0.15;
const BEAM: Distribution = { kind: 'beam', peak_cd: 50_000, beam_deg: 40, field_deg: 70 };

describe('reflectance of a glint', () => {
  // published: Fresnel's equations, with the indices of Rakić 1995, Johnson & Christy 1974 and Karlsson & Ribbing 1982 at
  // 550 nm, tabulated elsewhere: tests/fixtures/fresnel-table.csv (check values G3, G6, G8)
  const rows = readFileSync(new URL('../../fixtures/fresnel-table.csv', import.meta.url), 'utf8')
    .split('\n')
    .slice(1)
    .filter(Boolean)
    .map((line) => line.split(','));

  it('is that of the published table to 0.1 %, s, p and mean, coats and metals, up to 88°', () => {
    let [checked, worst] = [0, 0];
    const models = new Map<string, LightModel>();
    for (const [surface, ...figures] of rows) {
      const [n, k, angle_deg, Rs, Rp, mean] = figures.map(Number) as number[] as [
        number,
        number,
        number,
        number,
        number,
        number,
      ];
      // derived: on lines of the same angle, 3 m and 5 m off, eye and lamp mirror each other at the origin
      const theta = radiansFromDegrees(angle_deg);
      const [s, c] = [Math.sin(theta), Math.cos(theta)];
      const finish =
        k === 0
          ? { roughness: 0, coatIor: n }
          : { roughness: 0, metal: { n: [n, n, n], k: [k, k, k] } as const };
      const base =
        models.get(surface!) ?? modelOf({ parts: [opaque(sheetAt(0, 0, 0, 8, 8))], surfaces: [finish] });
      models.set(surface!, base);
      const lamp = lampAt([5 * s, 0, 5 * c], [0, 0, 0], isotropic(1e7), { shape: 'disc', radius_m: 0.01 });
      const camera = cameraAt([-3 * s, 0, 3 * c], [0, 0, 0]);
      const [glint] = findGlints({ ...base, lamps: [lamp] }, { camera, zero_cd_m2 });
      expect(Math.abs(glint!.incidence_deg - angle_deg)).toBeLessThan(1e-4);
      for (const [got, wanted] of [
        [glint!.reflectance, mean],
        [glint!.polarised.s, Rs],
        [glint!.polarised.p, Rp],
      ] as const) {
        // Printed to eight decimals, so less than 1e-5 is not printed to 0.1 %.
        if (wanted < 1e-5) continue;
        checked++;
        worst = Math.max(worst, Math.abs(got / wanted - 1));
      }
    }
    expect(checked).toBeGreaterThan(250);
    expect(worst).toBeLessThan(1e-3);
  });

  it('of aluminium in white light is its luminous one', () => {
    const model = modelOf({
      parts: [opaque(sheetAt(0, 0, 0, 8, 8))],
      surfaces: [{ roughness: 0, metal: metalIndex(shippedMetal('aluminium')) }],
      lamps: [lampAt([0, 0, 5], [0, 0, 0], isotropic(1e7), { shape: 'disc', radius_m: 0.05 })],
    });
    const [glint] = findGlints(model, { camera: cameraAt([0, 0, 3], [0, 0, 0]), zero_cd_m2 });
    // published: Rakić 1995 with CIE D65: 0.9145 (check value G7, to 2e-3)
    expect(Math.abs(glint!.reflectance - 0.9145)).toBeLessThan(2e-3);
  });
});

describe('luminance of a glint', () => {
  it('is what the spot meter of the core reads there, to 0.15 stop, for smooth and rough coats and metals', () => {
    const random = randomStream(SEED);
    const finishes = [
      { roughness: 0, coatIor: 1.5 },
      { roughness: 0.04, coatIor: 1.5 },
      { roughness: 0.1, coatIor: 1.33 },
      { roughness: 0.35, coatIor: 1.33 },
      { roughness: 0.2, metal: { n: [1.015, 1.015, 1.015], k: [6.627, 6.627, 6.627] } as const },
    ];
    const wall: Shape = {
      kind: 'panel',
      placement: placementFrom([0, 0, 0], [10, 20, 30]),
      halfSize_m: [3, 2],
      openings: [],
    };
    const { z } = wall.placement;
    const inFront = (p: Vec3): Vec3 => {
      const height = dot(p, z);
      const lift = height < 1 ? 2 * Math.max(1, Math.abs(height)) : 0;
      return [p[0] + lift * z[0], p[1] + lift * z[1], p[2] + lift * z[2]];
    };
    let [checked, worst] = [0, 0];
    for (const finish of finishes) {
      for (let i = 0; i < 8; i++) {
        const [eye, at] = [inFront(somewhere(random, 5)), inFront(somewhere(random, 5))];
        const face =
          i % 2 === 0
            ? ({ shape: 'disc', radius_m: 0.15 } as const)
            : ({ shape: 'rectangle', halfSize_m: [0.3, 0.2] } as const);
        const lamps = [lampAt(at, [0.3, 0, 0], BEAM, face)];
        const model = modelOf({ parts: [opaque(wall)], surfaces: [finish], lamps });
        const [glint] = findGlints(model, { camera: cameraAt(eye, [0, 0, 0], 2), zero_cd_m2 });
        if (glint?.kind !== 'image') continue;
        checked++;
        const toward = normalize(subtract(glint.point_m, eye));
        const spot = readSpot(newTracer(model), eye, toward, { zero_cd_m2, error_stops: 0.02 });
        worst = Math.max(worst, Math.abs(glint.stops - spot.stops));
      }
    }
    expect(checked).toBeGreaterThan(15);
    expect(worst).toBeLessThan(WITHIN_STOPS);
  });

  it('is what a fine sum over the face gives, and of a small convex mirror F·L as of a flat one', () => {
    const { surfaces } = modelOf({ surfaces: [{ roughness: 0.3, coatIor: 1.5 }] });
    const { optics } = surfaces[0]!;
    const face = { shape: 'disc', radius_m: 0.2 } as const;
    const lamp = lampAt([2, 0.4, 2.5], [0, 0, 0], BEAM, face);
    const [eye, q, n]: Vec3[] = [
      [-1.6, 0.1, 2],
      [0, 0, 0],
      [0, 0, 1],
    ];
    const L = lobeLuminance_cd_m2(lamp, optics, q!, n!, eye!, 128, null);
    // Midpoints of a 200 × 200 grid on the face.
    const { r, t, a, origin_m } = lamp.frame;
    const [o, f, onFace] = [normalize(eye!), new Float64Array(3), { r_m: 0, t_m: 0 }];
    const N = 200;
    let sum = 0;
    for (let i = 0; i < N * N; i++) {
      placeOnFace(face, ((i % N) + 0.5) / N, (Math.floor(i / N) + 0.5) / N, onFace);
      const s = origin_m.map((x, k) => x + onFace.r_m * r[k]! + onFace.t_m * t[k]!) as unknown as Vec3;
      const d2 = dot(s, s);
      const w = normalize(s);
      const cosGamma = -dot(w, a);
      const gamma_deg = (Math.acos(cosGamma) * 180) / Math.PI;
      const p = Math.log(Math.log(10) / Math.LN2) / Math.log(70 / 40);
      const I = 50_000 * 2 ** -((gamma_deg / 20) ** p);
      evaluateSurface(optics, w[0], w[1], w[2], o[0], o[1], o[2], 'glossy', f);
      sum += (f[1]! * w[2] * I) / d2 / (N * N);
    }
    expect(Math.abs(L / sum - 1)).toBeLessThan(0.01);

    const scene = sceneMaker();
    const small = { shape: 'disc', radius_m: 0.1 } as const;
    const ball: Shape = { kind: 'sphere', centre_m: [0, 0, -0.3], radius_m: 0.3 };
    const view = { camera: cameraAt([-2, 0, 3], [0, 0, 0]), zero_cd_m2 };
    const source = lampAt([2, 0, 3], [0, 0, 0], isotropic(1e4), small);
    const [curved] = findGlints(scene([opaque(ball)], [source]), view);
    const [flat] = findGlints(scene([opaque(sheetAt(0, 0, 0, 2, 2))], [source]), view);
    expect(curved!.approximate).toBe(true);
    // derived: brightness is conserved; the image is far smaller
    expect(Math.abs(curved!.luminance_cd_m2 / flat!.luminance_cd_m2 - 1)).toBeLessThan(0.02);
    expect(curved!.patch!.across_m).toBeLessThan(0.5 * flat!.patch!.across_m);
    const spot = readSpot(
      newTracer(scene([opaque(ball)], [source])),
      view.camera.position_m,
      normalize(subtract(curved!.point_m, view.camera.position_m)),
      { zero_cd_m2, error_stops: 0.02 },
    );
    expect(Math.abs(curved!.stops - spot.stops)).toBeLessThan(WITHIN_STOPS);
  });
});
