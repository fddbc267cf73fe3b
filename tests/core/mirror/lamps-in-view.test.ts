import { describe, expect, it } from 'vitest';
import { lampsInView } from '../../../src/core/mirror/lamps-in-view.ts';
import { VEILING_GLARE_INDEX, veil_cd_m2 } from '../../../src/core/mirror/veiling-glare.ts';
import { isotropic, lampAt, modelOf, opaque, pane, sheetAt } from '../../support/light-models.ts';
import { cameraAt } from './support/mirror-scene.ts';

const DISC = { shape: 'disc', radius_m: 0.2 } as const;
const view = { camera: cameraAt([0, 0, 0], [0, 0, -1]), zero_cd_m2: 1 };
/** derived: I/A. Seen from 4 m, the face's rim is 3° off, where the same candela come from a face 0.1 % narrower. */
const FACE_cd_m2 = 1000 / (Math.PI * 0.04);
const NEAR = 1e-3;
const facing = lampAt([3, 0, -4], [0, 0, 0], isotropic(1000), DISC);

describe('lamps as the camera sees them', () => {
  it('have the luminance of their face and light the lens by the inverse square and the cosine', () => {
    const [seen] = lampsInView(modelOf({ lamps: [facing] }), view);
    // derived: I/A; 1000/25·cos, cos = 4/5, for a lamp that is small against 5 m
    expect(Math.abs(seen!.luminance_cd_m2 / FACE_cd_m2 - 1)).toBeLessThan(NEAR);
    expect(Math.abs(seen!.lens_lx - 32)).toBeLessThan(0.2);
    expect(Math.abs(seen!.stops - Math.log2(FACE_cd_m2))).toBeLessThan(NEAR);
    expect(seen!.offAxis_deg).toBeCloseTo(36.87, 2);
    expect(seen!.faceShare).toBe(1);
    expect(seen!.hiddenBy).toBe(-1);
    expect(seen!.distance_m).toBe(5);
  });

  it('are in frame when any of their face is', () => {
    const placed = (x: number) =>
      lampsInView(modelOf({ lamps: [lampAt([x, 0, -4], [0, 0, 0], isotropic(1), DISC)] }), view)[0]!;
    // derived: the frame ends at x = 2 there, the face, turned to the camera, reaches 0.2·cos further in
    expect(placed(1.9).inFrame).toBe(true);
    expect(placed(2.1).inFrame).toBe(true);
    expect(placed(2.25).inFrame).toBe(false);
    expect(placed(1).pixel![0]).toBeCloseTo(0.75, 9);
    const behind = lampAt([0, 0, 4], [0, 0, 0], isotropic(1000), DISC);
    const [lamp] = lampsInView(modelOf({ lamps: [behind] }), view);
    expect(lamp).toMatchObject({ inFrame: false, pixel: null, lens_lx: 0 });
  });

  it('show nothing from behind, and less past things and through panes', () => {
    const back = lampAt([0, 0, -4], [0, 0, -9], isotropic(1000), DISC);
    expect(lampsInView(modelOf({ lamps: [back] }), view)[0]).toMatchObject({
      facing: false,
      luminance_cd_m2: 0,
      lens_lx: 0,
      stops: Number.NEGATIVE_INFINITY,
    });
    const ahead = lampAt([0, 0, -4], [0, 0, 0], isotropic(1000), DISC);
    const past = (x: number) =>
      lampsInView(modelOf({ lamps: [ahead], parts: [opaque(sheetAt(x, 0, -2, 1, 1))] }), view)[0]!;
    expect(past(0)).toMatchObject({ faceShare: 0, hiddenBy: 0, lens_lx: 0 });
    // derived: its edge halves the view
    expect(Math.abs(past(0.5).faceShare - 0.5)).toBeLessThan(0.1);
    expect(Math.abs(past(0.5).luminance_cd_m2 / FACE_cd_m2 - 1)).toBeLessThan(NEAR);
    const glass = modelOf({ lamps: [ahead], parts: [pane(sheetAt(0, 0, -2, 1, 1))], panes: [0.5] });
    expect(lampsInView(glass, view)[0]).toMatchObject({ faceShare: 1, hiddenBy: -1 });
    expect(Math.abs(lampsInView(glass, view)[0]!.luminance_cd_m2 / (0.5 * FACE_cd_m2) - 1)).toBeLessThan(
      NEAR,
    );
  });

  it('come in the order of what they throw at the lens; those that are off do not come', () => {
    const off = { ...facing, gain: 0 };
    const near = lampAt([0, 0, -2], [0, 0, 0], isotropic(1000), DISC);
    const found = lampsInView(modelOf({ lamps: [off, facing, near] }), view);
    expect(found.map(({ lamp }) => lamp)).toEqual([2, 1]);
  });
});

describe('veiling glare', () => {
  it('is, under an even field of luminance L all round, the index times L', () => {
    // derived: from its definition (ISO 9358:1994, from memory): such a field gives the lens E = π·L
    expect(veil_cd_m2(Math.PI * 50)).toBeCloseTo(50 * VEILING_GLARE_INDEX, 12);
    expect(veil_cd_m2(Math.PI * 50, 0.05)).toBeCloseTo(2.5, 12);
    expect(veil_cd_m2(0)).toBe(0);
  });
});
