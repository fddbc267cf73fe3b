import { describe, expect, it } from 'vitest';
import { stopsAbove } from '../../src/core/exposure/stops.ts';
import { zeroOf } from '../../src/core/exposure/zero.ts';
import { compileScene } from '../../src/scene/compile/compile-scene.ts';
import { meterScene } from '../../src/scene/meter/meter-scene.ts';
import { edited, opened, smallScene } from '../support/scenes.ts';
import { EXPOSURE_STOPS, halfLastDigit } from '../tolerances.ts';

const NO_FILES = { photometry: new Map(), meshes: new Map() };

describe('S1: the light to aim for at 1/50 s, f/4, ISO 800', () => {
  const scene = opened(edited(smallScene(), {}));
  const { exposure } = meterScene(scene, compileScene(scene, NO_FILES), { light: 'direct' });

  it('is 250 lx with a flat receptor of C 250, and middle grey 12.5 cd/m²', () => {
    // derived: C·N²/(t·S) = 250·16·50/800 = 250; K·N²/(t·S) = 12.5·16·50/800 = 12.5.
    expect(exposure.zero.flat_lx).toBeCloseTo(250, 9);
    expect(exposure.zero.luminance_cd_m2).toBeCloseTo(12.5, 9);
  });

  it('is 330 lx with a dome of C 330: 0.40 stop more', () => {
    // derived: 330·16·50/800 = 330; log₂(330/250) = 0.4005.
    expect(exposure.zero.dome_lx).toBeCloseTo(330, 9);
    const more = stopsAbove(exposure.zero.dome_lx, exposure.zero.flat_lx);
    expect(Math.abs(more - 0.4)).toBeLessThan(halfLastDigit(2));
  });

  it("follows the meter's own constants, which belong to the document", () => {
    const mine = opened(edited(smallScene(), { calibration: { flat: 320, dome: 340, reflected: 14 } }));
    const { zero, calibration } = meterScene(mine, compileScene(mine, NO_FILES), {
      light: 'direct',
    }).exposure;
    // derived: all three scale by 16·50/800 = 1.
    expect(calibration).toEqual({ flat: 320, dome: 340, reflected: 14 });
    expect(zero.flat_lx).toBeCloseTo(320, 9);
    expect(zero.dome_lx).toBeCloseTo(340, 9);
    expect(zero.luminance_cd_m2).toBeCloseTo(14, 9);
  });

  it('asks for a stop more at f/5.6 and a stop less at 1/25 s', () => {
    const settings = { shutter_s: 1 / 50, iso: 800, nd_stops: 0, loss_stops: 0 };
    const lx = (more: object) => zeroOf({ ...settings, fNumber: 4, ...more }).flat_lx;
    // derived: f/5.6 stands for f/5.657, (5.6/4)² = 1.96; 2× the time, half the light.
    expect(Math.abs(stopsAbove(lx({ fNumber: 4 * Math.SQRT2 }), 250) - 1)).toBeLessThan(EXPOSURE_STOPS);
    expect(Math.abs(stopsAbove(lx({ shutter_s: 1 / 25 }), 250) + 1)).toBeLessThan(EXPOSURE_STOPS);
  });
});
