import { describe, expect, it } from 'vitest';
import {
  type CAMERA_SIDES,
  makeCamera,
  makeCameraAt,
  makeCameraOn,
} from '../../../src/scene/building/make-camera.ts';
import type { Figure } from '../../../src/scene/schema/figure.ts';
import { EMPTY, sceneNamed, seen, withMade } from './support.ts';

const quay = sceneNamed('night-quay');
const cameraOf = (document: typeof EMPTY) => document.cameras!.at(-1)!;

describe('stand here, look there', () => {
  it('stands the lens 1.5 m over what is under it and looks at the face that was pressed', () => {
    const camera = cameraOf(withMade(quay, makeCameraAt(seen(quay), [-5, 0, 1], [-2, 0, 1.4])));
    expect(camera).toMatchObject({ id: 'c', name: 'Camera C', position_m: [-5, 1.5, 1] });
    expect(camera.look_m).toEqual([-2.13, 1.59, 1.47]);
  });

  it('looks at chest height where nobody is, and takes over the exposure', () => {
    const camera = cameraOf(withMade(quay, makeCameraAt(seen(quay), [-5, 0, 1], [6, 0, 0])));
    expect(camera.look_m).toEqual([6, 1.4, 0]);
    const { fNumber, iso, shutter_s, focal_mm } = quay.cameras![0]!;
    expect(camera).toMatchObject({ fNumber, iso, shutter_s, focal_mm });
    expect(camera).not.toHaveProperty('focus_m');
  });

  it('looks somewhere even when both presses are one', () => {
    const camera = cameraOf(withMade(EMPTY, makeCameraAt(seen(EMPTY), [1, 0, 1], [1, 0, 1])));
    expect(Math.hypot(...camera.look_m.map((v, i) => v - camera.position_m[i]!))).toBeGreaterThan(0.05);
  });

  it('with 60 Hz mains begins at 1/60 s', () => {
    const scene = { ...EMPTY, site: { mains: { volts: 120, hertz: 60 as const } } };
    expect(cameraOf(withMade(scene, makeCamera(seen(scene)))).shutter_s).toBe(1 / 60);
  });
});

describe('a camera on a thing', () => {
  const figure: Figure = { id: 'eve', position_m: [0, 0, 0], heading_deg: 90 };
  const scene = { ...EMPTY, figures: [figure] };
  const from = (side: (typeof CAMERA_SIDES)[number]) =>
    cameraOf(withMade(scene, makeCameraOn(seen(scene), 'eve', side, 4)!)).position_m;

  it('stands on that side of a figure, its own left and right', () => {
    // She looks along +x; her left is −z. The face is at about x = 0.14, so 4 m before it is 4.14.
    expect(from('front')).toEqual([4.13, 1.5, 0]);
    expect(from('back')[0]).toBeLessThan(-3.8);
    expect(from('left')[2]).toBeCloseTo(-4, 1);
    expect(from('right')[2]).toBeCloseTo(4, 1);
    expect(from('three-quarter left')[2]).toBeCloseTo(-2.83, 1);
  });

  it('cannot look at what has no place or is not there', () => {
    expect(makeCameraOn(seen(quay), '1a', 'front', 4)).toBeNull();
    expect(makeCameraOn(seen(quay), 'nobody', 'front', 4)).toBeNull();
  });
});

it('letters go on past those in names', () => {
  const { cameras, paths: _, ...rest } = quay;
  const named = cameras!.map((camera, i) => ({ ...camera, id: `cam-${i}`, name: `${'AB'[i]}, wide` }));
  const scene = { ...rest, cameras: named };
  expect(cameraOf(withMade(scene, makeCamera(seen(scene)))).name).toBe('Camera C');
});

it('before something of the set stands clear of it, and looks half-way up a vehicle', () => {
  const boat = cameraOf(withMade(quay, makeCameraOn(seen(quay), 'boat', 'front', 4)!));
  expect(Math.abs(boat.position_m[0]) > 12 || boat.position_m[2] > -3.2).toBe(true);
  expect(boat.look_m).toEqual([0, 0.85, -4.9]);
  const trunk = cameraOf(withMade(quay, makeCameraOn(seen(quay), 'trunk', 'front', 4)!));
  expect(trunk.position_m[1]).toBe(1.5);
});
