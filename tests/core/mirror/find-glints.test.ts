import { describe, expect, it } from 'vitest';
import { placementFrom } from '../../../src/core/geometry/placement.ts';
import type { Shape } from '../../../src/core/geometry/shape.ts';
import { faceArea_m2 } from '../../../src/core/lamps/face.ts';
import { distance, dot, normalize, scale, subtract, type Vec3 } from '../../../src/core/math/vec3.ts';
import { findGlints } from '../../../src/core/mirror/find-glints.ts';
import { burnsInFrame, CLIP_stops } from '../../../src/core/mirror/glint.ts';
import { isotropic, lampAt, modelOf, opaque, pane, sheetAt } from '../../support/light-models.ts';
import { randomStream } from '../geometry/support/random.ts';
import { cameraAt, GLOSS, sceneMaker, somewhere } from './support/mirror-scene.ts';

const SEED = 20_261;
const DISC = { shape: 'disc', radius_m: 0.15 } as const;
/** Middle grey of 1 cd/m². */
const zero_cd_m2 = 1;
const scene = sceneMaker();

/** Where the line from the eye to the lamp's mirror image meets the plane z = 0 of a frame; the definition itself. */
function byMirrorImage(origin: Vec3, x: Vec3, y: Vec3, z: Vec3, eye: Vec3, lamp: Vec3) {
  const image = subtract(lamp, scale(z, 2 * dot(subtract(lamp, origin), z)));
  const d = subtract(image, eye);
  const t = dot(subtract(origin, eye), z) / dot(d, z);
  const q: Vec3 = [eye[0] + t * d[0], eye[1] + t * d[1], eye[2] + t * d[2]];
  const local = subtract(q, origin);
  return { q, u: dot(local, x), v: dot(local, y) };
}

describe('glints in flat faces', () => {
  it('lie where the mirror image is, to a micrometre, in 1500 random set-ups, on the face in 500 of them', () => {
    const random = randomStream(SEED);
    let [on, off, worst] = [0, 0, 0];
    for (let i = 0; i < 1500; i++) {
      const placement = placementFrom(somewhere(random, 2), [
        360 * random(),
        360 * random(),
        360 * random(),
      ] as unknown as Vec3);
      const { origin_m, x, y, z } = placement;
      const [halfX, halfY] = [1 + 4 * random(), 1 + 4 * random()];
      // Half of them as a face of a box.
      const box = i % 2 === 1;
      const depth = box ? 0.3 : 0;
      const shape: Shape = box
        ? {
            kind: 'box',
            placement: { ...placement, origin_m: subtract(origin_m, scale(z, depth)) },
            halfSize_m: [halfX, halfY, depth],
          }
        : { kind: 'panel', placement, halfSize_m: [halfX, halfY], openings: [] };
      const inFront = (p: Vec3): Vec3 => {
        const height = dot(subtract(p, origin_m), z);
        return height < 0.3 ? subtract(p, scale(z, 2 * Math.min(height, -0.3))) : p;
      };
      const eye = inFront(somewhere(random, 6));
      const lamp = inFront(somewhere(random, 6));
      const { q, u, v } = byMirrorImage(origin_m, x, y, z, eye, lamp);
      const margin = 0.3 + 0.2 * distance(lamp, q);
      const model = scene([opaque(shape)], [lampAt(lamp, q, isotropic(1e6), { ...DISC, radius_m: 0.02 })]);
      const glints = findGlints(model, { camera: cameraAt(eye, q), zero_cd_m2 }, { withoutPatch: true });
      const images = glints.filter((g) => g.kind === 'image' && dot(g.normal, z) > 0.99);
      if (Math.abs(u) < halfX - 1e-6 && Math.abs(v) < halfY - 1e-6) {
        on++;
        expect(images.length, `set-up ${i}`).toBe(1);
        worst = Math.max(worst, distance(images[0]!.point_m, q));
        // derived: the camera looks straight at it
        expect(images[0]!.inFrame).toBe(true);
        expect(Math.abs(images[0]!.pixel![0] - 0.5)).toBeLessThan(1e-9);
        // derived: law of reflection
        const n = images[0]!.normal;
        const toLamp = dot(normalize(subtract(lamp, q)), n);
        expect(Math.abs(dot(normalize(subtract(eye, q)), n) - toLamp)).toBeLessThan(1e-9);
      } else if (Math.abs(u) > halfX + margin || Math.abs(v) > halfY + margin) {
        off++;
        expect(images.length, `set-up ${i}`).toBe(0);
      }
    }
    expect(on).toBeGreaterThan(500);
    expect(off).toBeGreaterThan(300);
    // Asked: 1 cm.
    expect(worst).toBeLessThan(1e-6);
  });

  // A wall in the plane z = 0, a camera and a lamp 3 m before it: the lamp mirrors at the origin.
  const eye: Vec3 = [-2, 0, 3];
  const at: Vec3 = [2, 0, 3];
  const lamp = lampAt(at, [0, 0, 0], isotropic(1e4), DISC);
  const view = { camera: cameraAt(eye, [0, 0, 0]), zero_cd_m2 };
  const wall = sheetAt(0, 0, 0, 4, 2);
  const only = (parts: Parameters<typeof scene>[0], lamps = [lamp]) =>
    findGlints(scene(parts, lamps), view).filter((g) => g.kind === 'image');

  it('is as bright as F·L of the face', () => {
    const [glint] = only([opaque(wall)]);
    const F = glint!.reflectance;
    // derived: I/A toward the glint, face on; the coat's least roughness spreads under 2 % of it past
    // the rim; the quadrature is good to 1.5 %
    const L = (F * 1e4) / faceArea_m2(DISC);
    expect(Math.abs(glint!.mirror_cd_m2 / L - 1)).toBeLessThan(1e-9);
    expect(glint!.luminance_cd_m2 / L).toBeGreaterThan(0.98);
    expect(glint!.luminance_cd_m2 / L).toBeLessThan(1.015);
    expect(glint!.faceShare).toBe(1);
    expect(glint!.approximate).toBe(false);
    expect(glint!.toCamera_m).toBeCloseTo(Math.sqrt(13), 9);
  });

  it('is not in an opening, and only part of the lamp is where it straddles one', () => {
    const opened = (left_m: number): Shape => ({
      ...(wall as Extract<Shape, { kind: 'panel' }>),
      openings: [{ left_m, right_m: 1, bottom_m: -0.5, top_m: 0.5 }],
    });
    expect(only([opaque(opened(-1))])).toHaveLength(0);
    // derived: the edge of the opening goes through the middle of the image
    const [half] = only([opaque(opened(0))]);
    expect(Math.abs(half!.faceShare - 0.5)).toBeLessThan(0.1);
    expect(half!.point_m[0]).toBeLessThan(1e-6);
    expect(only([opaque(opened(0.5))])[0]!.faceShare).toBe(1);
  });

  it('keeps what is left of an image whose middle is off the edge', () => {
    // derived: the image of the disc, aimed at the origin, is 0.15·(1/2)·/cos wide along x: ±0.09 or so at the edge x = 0
    const short = sheetAt(-2.02, 0, 0, 4, 2);
    const [rest] = only([opaque(short)]);
    expect(rest!.faceShare).toBeGreaterThan(0.1);
    expect(rest!.faceShare).toBeLessThan(0.5);
    expect(rest!.point_m[0]).toBeLessThanOrEqual(-0.02);
    expect(burnsInFrame(rest!)).toBe(true);
  });

  it('is gone when either leg is blocked, whole or in part', () => {
    const block = (x: number, width: number) => opaque(sheetAt(x, 0, 1.5, width, 1), 1);
    const twice = sceneMaker({ surfaces: [GLOSS, {}] });
    const seen = (x: number, width: number) =>
      findGlints(twice([opaque(wall), block(x, width)], [lamp]), view).filter((g) => g.kind === 'image');
    // derived: half-way up, the legs pass x = −1 and x = 1
    expect(seen(-1, 0.3)).toHaveLength(0);
    expect(seen(1, 0.5)).toHaveLength(0);
    expect(seen(0, 0.3)[0]!.faceShare).toBe(1);
    // derived: an edge through the middle of the leg to the lamp
    expect(Math.abs(seen(1.5, 1)[0]!.faceShare - 0.5)).toBeLessThan(0.1);
  });

  it('is dimmed by panes and by haze on both legs', () => {
    const clear = only([opaque(wall)])[0]!;
    const glass = modelOf({
      lamps: [lamp],
      parts: [opaque(wall), pane(sheetAt(0, 0, 1.5, 6, 4))],
      panes: [0.8],
      surfaces: [GLOSS],
    });
    // derived: through the pane twice
    const through = findGlints(glass, view)[0]!;
    expect(through.luminance_cd_m2 / clear.luminance_cd_m2).toBeCloseTo(0.64, 9);
    expect(through.mirror_cd_m2 / clear.mirror_cd_m2).toBeCloseTo(0.64, 9);
    const hazy = modelOf({
      lamps: [lamp],
      parts: [opaque(wall)],
      surfaces: [GLOSS],
      extinction_per_m: 0.05,
    });
    // derived: e^(−σ·d) over 2·√13 m
    const dimmed = findGlints(hazy, view)[0]!;
    expect(dimmed.mirror_cd_m2 / clear.mirror_cd_m2).toBeCloseTo(Math.exp(-0.05 * 2 * Math.sqrt(13)), 9);
    expect(dimmed.hazeLoss_stops).toBeCloseTo(0.05 * 2 * Math.sqrt(13) * Math.LOG2E, 9);
  });

  it('follows level and filters, and a lamp that is off or turned away has none', () => {
    const full = only([opaque(wall)])[0]!;
    const half = only([opaque(wall)], [{ ...lamp, gain: 0.5 }])[0]!;
    expect(full.stops - half.stops).toBeCloseTo(1, 9);
    expect(only([opaque(wall)], [{ ...lamp, gain: 0 }])).toHaveLength(0);
    expect(only([opaque(wall)], [lampAt(at, [4, 0, 6], isotropic(1e4), DISC)])).toHaveLength(0);
  });

  it('tells what is in frame, and asked for that alone finds no more', () => {
    const away = { camera: cameraAt(eye, [-2, 3, 3], 0.3), zero_cd_m2 };
    const model = scene([opaque(wall)], [lamp]);
    const [out] = findGlints(model, away);
    expect(out!.inFrame).toBe(false);
    expect(burnsInFrame(out!)).toBe(false);
    expect(findGlints(model, away, { inFrameOnly: true })).toHaveLength(0);
    const behind = { camera: cameraAt(eye, [-4, 0, 6]), zero_cd_m2 };
    expect(findGlints(model, behind)[0]!.pixel).toBeNull();
    expect(findGlints(model, view, { inFrameOnly: true })).toHaveLength(1);
    expect(findGlints(model, view, { lamps: [] })).toHaveLength(0);
    expect(findGlints(model, view, { least_stops: 20 })).toHaveLength(0);
  });

  it('leaves to an ideal polariser Rp/2 against (Rs + Rp)/2', () => {
    const [glint] = only([opaque(wall)]);
    const { s, p } = glint!.polarised;
    // derived: it passes half of what was unpolarised and all of its own direction; see S7 for figures
    expect(glint!.polarised_stops - glint!.stops).toBeCloseTo(Math.log2(p / (s + p)), 12);
    expect(glint!.reflectance).toBeCloseTo((s + p) / 2, 12);
  });

  it('measures the patch above the clip point', () => {
    const [glint] = only([opaque(wall)]);
    // derived: at least the image: 0.30·(1/2) across; along, as that of a face square to its way, /cos θ, cos θ = 3/√13
    expect(glint!.patch!.across_m).toBeGreaterThan(0.15);
    expect(glint!.patch!.along_m).toBeGreaterThan(0.15 / (3 / Math.sqrt(13)));
    expect(glint!.patch!.across_m).toBeLessThan(0.5);
    // derived: dimmed to just above the clip point only the image itself is left, of 0.15 m
    const dim = 2 ** (CLIP_stops + 0.01 - glint!.stops);
    const [least] = only([opaque(wall)], [{ ...lamp, gain: dim }]);
    expect(least!.patch!.across_m).toBeLessThan(0.15 * 1.05);
    expect(only([opaque(wall)], [{ ...lamp, gain: dim / 1.1 }])[0]!.patch).toBeNull();
    // derived: at 2 m a share of the frame of one part in 2·halfWidth·distance
    const wide = glint!.patch!.across_m / (2 * 0.5 * Math.sqrt(13));
    expect(glint!.patch!.ofFrameWidth).toBeGreaterThanOrEqual(wide * 0.99);
  });
});

describe('the sheen of a rough coat', () => {
  it('burns beside the edge where the image itself is off the surface', () => {
    const rough = sceneMaker({ surfaces: [{ roughness: 0.12, coatIor: 1.5 }] });
    const lamp = lampAt([2, 0, 3], [0, 0, 0], isotropic(1e5), DISC);
    // derived: mirrored at the origin, 0.2 m beside the sheet; image half-widths are under 0.1 m
    const model = rough([opaque(sheetAt(-2.2, 0, 0, 4, 2))], [lamp]);
    const [sheen] = findGlints(model, { camera: cameraAt([-2, 0, 3], [0, 0, 0]), zero_cd_m2 });
    expect(sheen!.kind).toBe('sheen');
    expect(sheen!.faceShare).toBe(0);
    expect(sheen!.stops).toBeGreaterThan(CLIP_stops);
    // derived: nearest to the image, so at the edge
    expect(distance(sheen!.point_m, [-0.2, 0, 0])).toBeLessThan(0.02);
  });

  it('is left alone where the surface is so rough that it only looks shaded', () => {
    const matt = sceneMaker({ surfaces: [{ roughness: 0.7, coatIor: 1.5 }] });
    const lamp = lampAt([2, 0, 3], [0, 0, 0], isotropic(1e6), DISC);
    const model = matt([opaque(sheetAt(0, 0, 0, 4, 2))], [lamp]);
    expect(findGlints(model, { camera: cameraAt([-2, 0, 3], [0, 0, 0]), zero_cd_m2 })).toHaveLength(0);
  });
});
