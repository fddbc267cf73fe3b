import { describe, expect, it } from 'vitest';
import { flatFaces } from '../../src/core/geometry/flat-face.ts';
import { distance } from '../../src/core/math/vec3.ts';
import { flatMirror } from '../../src/core/mirror/flat-mirror.ts';
import { compileScene } from '../../src/scene/compile/compile-scene.ts';
import { meterScene } from '../../src/scene/meter/meter-scene.ts';
import { curesOf } from '../../src/scene/mirror/cures/cures.ts';
import { EXPOSURE_STOPS } from '../tolerances.ts';
import { NO_FILES } from './support/backlight.ts';
import { glintsOf, shinySide } from './support/shiny-side.ts';

const CAMERA = [0, 6, 1.5] as const;
const LAMP = [25, 2, 3] as const;
const AIM = [0, 6, 1.5] as const;

/** Where along the side the lamp's centre is mirrored, and whether that is on it. */
function mirrored(camera: readonly [number, number, number], lamp: readonly [number, number, number]) {
  const scene = shinySide({ camera_m: camera, lamp_m: lamp, aim_m: AIM });
  const side = flatMirror(flatFaces(compileScene(scene, NO_FILES).parts[0]!.shape)[0]!, 0);
  const [q] = side.mirrored(scene.cameras![0]!.position_m, scene.lamps![0]!.position_m);
  return { along_m: q!.point_m[0], height_m: q!.point_m[1], onBody: q!.within };
}

describe('S5: a glint taken off the tail of a vehicle', () => {
  it('is on the body at 18.75 m, 2.63 m up, with the lamp at 25 m', () => {
    // derived: k = 6/(6 + 2) = 0.75; x = 0.75·25 = 18.75; z = 1.5 + 0.75·(3 − 1.5) = 2.625
    expect(mirrored(CAMERA, LAMP)).toEqual({ along_m: 18.75, height_m: 2.625, onBody: true });
    const [glint, ...others] = glintsOf(shinySide({ camera_m: CAMERA, lamp_m: LAMP, aim_m: AIM })).glints;
    expect(others).toHaveLength(0);
    expect(distance(glint!.point_m, [18.75, 2.625, 0])).toBeLessThan(0.01);
    expect(glint!.inFrame).toBe(true);
    expect(glint!.burns).toBe(true);
    // The vehicle's end is 20 m along, 24 m from its other one; seen from before it the left edge is that other one.
    expect(glint!.place).toMatchObject({ side: 'front', along_m: 22.75, height_m: 2.625 });
  });

  it('is clear of the body by 1 m with the lamp back at 28 m', () => {
    // derived: 0.75·28 = 21.0 against 20
    expect(mirrored(CAMERA, [28, 2, 3])).toMatchObject({ along_m: 21, onBody: false });
    const { glints } = glintsOf(shinySide({ camera_m: CAMERA, lamp_m: [28, 2, 3], aim_m: AIM }));
    expect(glints.filter(({ burns }) => burns)).toHaveLength(0);
  });

  it('costs −0.33 stop to move back, before haze', () => {
    // A mark square to the lamp and straight before it, 25 m and then 28 m off.
    const read = (along: number) => {
      const scene = shinySide(
        { camera_m: CAMERA, lamp_m: [along, 2, 3], aim_m: [0, 2, 3] },
        { solids: [], marks: [{ id: 'mark', position_m: [0, 3, 2], facing: 'lamp:back', receptor: 'flat' }] },
      );
      return meterScene(scene, compileScene(scene, NO_FILES), { light: 'direct' }).marks[0]!.stops;
    };
    // derived: log₂(25²/28²) = −0.327
    expect(Math.abs(read(28) - read(25) + 0.327)).toBeLessThan(EXPOSURE_STOPS);
  });

  it('is clear too with the lamp 1.4 m out, by 0.27 m', () => {
    // derived: 6/7.4·25 = 20.27
    const { along_m, onBody } = mirrored(CAMERA, [25, 1.4, 3]);
    expect(along_m).toBeCloseTo(20.27, 2);
    expect(onBody).toBe(false);
  });

  it('is not offered a way into an exclusion zone', () => {
    const edge = {
      id: 'edge',
      name: 'Edge',
      outline_m: [
        [-10, -1],
        [60, -1],
        [60, 1.8],
        [-10, 1.8],
      ],
    } as const;
    const curesIn = (keepOut: boolean) => {
      const scene = shinySide(
        { camera_m: CAMERA, lamp_m: LAMP, aim_m: AIM },
        keepOut
          ? { site: { keepOut: [{ ...edge, outline_m: edge.outline_m.map(([x, z]) => [x, z]) }] } }
          : {},
      );
      const model = compileScene(scene, NO_FILES);
      return curesOf({ document: scene, model, camera: scene.cameras![0]! }).flatMap(({ cures }) => cures);
    };
    // derived: further in than 1.5 m out the centre is off the body: 25·6/(6 + y) > 20
    expect(curesIn(false).some(({ change }) => change === 'lamp-in')).toBe(true);
    expect(curesIn(true).filter(({ to_m }) => to_m[2] < 1.8 && to_m[2] > -1)).toHaveLength(0);
    expect(curesIn(true).some(({ change }) => change === 'lamp-along-away')).toBe(true);
  });

  it('stays off the body until the camera tracks 4 m back, or pushes in to 5 m', () => {
    const lamp = [28, 2, 3] as const;
    // derived: 0.75·(28 + m) > 20 + m for m < 4; 28·y/(y + 2) > 20 for y > 5
    expect(mirrored([-3.99, 6, 1.5], lamp).onBody).toBe(false);
    expect(mirrored([-4.01, 6, 1.5], lamp).onBody).toBe(true);
    expect(mirrored([0, 5.01, 1.5], lamp).onBody).toBe(false);
    expect(mirrored([0, 4.99, 1.5], lamp).onBody).toBe(true);
  });

  it('is warned of sooner than that, because the lamp is 0.3 m wide and not a point', () => {
    const seen = (m: number) =>
      glintsOf(shinySide({ camera_m: [-m, 6, 1.5], lamp_m: [28, 2, 3], aim_m: AIM })).glints[0];
    // derived: its far rim, 2.15 m out, mirrors at (28 + m)·6/8.15 − m, which is on the body from m = 2.3 on. The face is
    // turned by 8° and so 1 % narrower.
    expect(seen(2.2)?.kind).not.toBe('image');
    expect(seen(2.5)).toMatchObject({ kind: 'image', burns: true });
    expect(seen(2.5)!.faceShare).toBeLessThan(0.2);
    expect(seen(4)!.faceShare).toBeCloseTo(0.5, 1);
  });

  it('leaves the lamp itself in shot, 8.1° off axis in a half-frame of 27.2°', () => {
    const scene = shinySide({ camera_m: CAMERA, lamp_m: [28, 2, 3], aim_m: AIM });
    const [lamp] = glintsOf(scene).lamps;
    expect(lamp).toMatchObject({ lamp: 'back', inFrame: true, facing: true, faceShare: 1 });
    // derived: atan(4/28) = 8.13°, atan(18/35) = 27.22°, across
    const halfWidth = 18 / 35;
    const across_deg = (Math.atan(Math.abs(2 * lamp!.pixel![0] - 1) * halfWidth) * 180) / Math.PI;
    expect(across_deg).toBeCloseTo(8.13, 2);
    expect((Math.atan(halfWidth) * 180) / Math.PI).toBeCloseTo(27.22, 2);
  });
});
