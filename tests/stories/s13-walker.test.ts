import { describe, expect, it } from 'vitest';
import { sweptShadow } from '../../src/core/optics/swept-shadow.ts';
import { compileScene } from '../../src/scene/compile/compile-scene.ts';
import { readSceneFiles } from '../../src/scene/files/scene-files.ts';
import { meterScene } from '../../src/scene/meter/meter-scene.ts';
import { walkReport } from '../../src/scene/walk/walk-report.ts';
import { chosenWalker, withoutWalker } from '../../src/scene/walk/walker.ts';
import { isotropicFile } from '../support/isotropic-file.ts';
import { opened } from '../support/scenes.ts';

/**
 * The key is 3 m from the actor. A passer-by crosses between them, 1.5 m from the lamp, at 1.4 m/s, 5 m from the camera, which
 * looks along the key's light (so that a dome to the camera faces the key from both places).
 */
const SCENE = opened({
  keyfall: 1,
  title: 'Walker',
  site: { mains: { volts: 230, hertz: 50 } },
  heads: {
    lamp: {
      photometry: { kind: 'file', file: 'lamp.ies', text: isotropicFile(1000) },
      face: { shape: 'disc', diameter_m: 0.01 },
      spectrum: { kind: 'led', cct_K: 5600 },
    },
  },
  lamps: [{ id: 'key', head: 'lamp', position_m: [0, 1.5, 0], aim_m: [0, 1.5, 3] }],
  marks: [{ id: 'actor', position_m: [0, 1.5, 3] }],
  cameras: [
    {
      id: 'a',
      position_m: [0, 1.5, -3.5],
      look_m: [0, 1.5, 3],
      sensor_mm: [36, 24],
      focal_mm: 35,
      fNumber: 4,
      shutter_s: 0.02,
      iso: 800,
    },
  ],
  paths: [
    {
      id: 'cross',
      of: 'walker',
      points: [
        { t_s: 0, position_m: [-1.4, 0, 1.5] },
        { t_s: 2, position_m: [1.4, 0, 1.5] },
      ],
    },
  ],
});

async function walked(document = SCENE) {
  const { files } = await readSceneFiles(document, () => Promise.reject(new Error('no file')));
  const walker = chosenWalker(document);
  const scene = withoutWalker(document, walker);
  const model = compileScene(scene, files);
  return { report: walkReport(scene, model, walker), actor: meterScene(scene, model).marks[0]! };
}

describe('S13, the walker', () => {
  it('is two stops over the actor where it passes the key at half the distance', async () => {
    const { report, actor } = await walked();
    // derived: (3/1.5)² = 4 = +2 stops
    expect(report.brightest.t_s).toBeCloseTo(1, 9);
    expect(report.brightest.lamp).toMatchObject({ id: 'key', share: 1 });
    expect(report.brightest.lamp!.distance_m).toBeCloseTo(1.5, 6);
    expect(Math.abs(report.brightest.stops - actor.stops - 2)).toBeLessThan(0.01);
  });

  it('throws a shadow 1.0 m wide at 2.8 m/s: 0.43 s, 11 frames', () => {
    // derived: 0.5·3/1.5 = 1.0 m, 1.4·3/1.5 = 2.8 m/s; a face of 0.2 m is under it for 1.2/2.8 = 0.43 s, 10.7 frames at 25 fps
    const shadow = sweptShadow({
      bodyWidth_m: 0.5,
      speed_m_per_s: 1.4,
      lampToBody_m: 1.5,
      lampToMark_m: 3,
      markWidth_m: 0.2,
    });
    expect(shadow.width_m).toBeCloseTo(1, 9);
    expect(shadow.speed_m_per_s).toBeCloseTo(2.8, 9);
    expect(Math.abs(shadow.duration_s - 0.43)).toBeLessThan(0.005);
    expect(Math.ceil(shadow.duration_s * 25)).toBe(11);
  });

  it('takes all of the key for as long as its head is in the way', async () => {
    const { report } = await walked();
    // derived: in mid-step the middle of the head is 1.538 m up, its round 85 mm in radius with centres 26 mm from there; at
    // 1.5 m it is 2·√(85² − 12²) = 168 mm across, nothing else of the body reaches up there, so (2·0.168 + 0.2)/2.8 = 0.19 s
    const wanted = sweptShadow({
      bodyWidth_m: 0.168,
      speed_m_per_s: 1.4,
      lampToBody_m: 1.5,
      lampToMark_m: 3,
      markWidth_m: 0.2,
    });
    expect(report.shadows).toHaveLength(1);
    const [shadow] = report.shadows;
    expect(Math.abs(shadow!.duration_s - wanted.duration_s)).toBeLessThan(0.008);
    expect(shadow!.frames).toBe(5);
    expect(shadow!.deepest_stops).toBe(Number.NEGATIVE_INFINITY);
    expect(shadow!.lamp).toBe('key');
    // derived: as above, from within 10 cm of the middle of its way
    expect(Math.abs(shadow!.shadow!.width_m - 1)).toBeLessThan(0.01);
    expect(Math.abs(shadow!.shadow!.speed_m_per_s - 2.8)).toBeLessThan(0.01);
  });

  it('is blurred by 33 pixels; 3 pixels need 1/545 s and cost 3.4 stops', async () => {
    const { report } = await walked();
    // derived: 1.4·0.02·35/5 = 0.196 mm = 32.67 of 6000 px; 3/32.67 of 1/50 s = 1/544.4 s, log₂ = −3.445
    expect(Math.abs(report.mostBlurred!.blur_px - 32.67)).toBeLessThan(0.02);
    expect(Math.abs(1 / report.mostBlurred!.sharp!.shutter_s - 545)).toBeLessThan(1);
    expect(Math.abs(report.mostBlurred!.sharp!.stops + 3.4)).toBeLessThan(0.05);
  });

  it('is seen all the way across the frame, and not beyond it', async () => {
    const { report } = await walked();
    // derived: the frame is 5·36/35 = 5.14 m wide there; 2.8 m of walk fit in it
    expect(report.inFrame).toEqual([{ from_s: 0, to_s: 2 }]);
    expect(report.steps.every(({ framing }) => framing === 'whole')).toBe(true);
  });
});
