import { describe, expect, it } from 'vitest';
import { stopsAbove } from '../../src/core/exposure/stops.ts';
import { zeroOf } from '../../src/core/exposure/zero.ts';
import { channelMix } from '../../src/core/monochrome/channel-mix.ts';
import { noiseCost_stops } from '../../src/core/monochrome/noise-cost.ts';
import { type LinearRgb, luminanceOfRgb } from '../../src/core/picture/linear-rgb.ts';
import { DEFAULT_TONE_RANGE } from '../../src/core/picture/tone-curve.ts';
import { contrastOf } from '../../src/core/separation/contrast.ts';
import { STANDS_OUT_STOPS } from '../../src/core/separation/outline-summary.ts';
import { lightOf, sideOf } from '../core/separation/support.ts';
import { keyfall, temporaryFolder } from '../support/command-line.ts';
import { halfLastDigit } from '../tolerances.ts';

/** 1/50 s, f/4, ISO 800. */
const ZERO = zeroOf({ fNumber: 4, shutter_s: 0.02, iso: 800, nd_stops: 0, loss_stops: 0 }).luminance_cd_m2;
const between = (inside: LinearRgb, outside: LinearRgb, greyOf: (rgb: LinearRgb) => number) =>
  contrastOf(sideOf(lightOf([...inside])), sideOf(lightOf([...outside])), {
    greyOf,
    zero_cd_m2: ZERO,
    range: DEFAULT_TONE_RANGE,
  }).stops;

const COAT: LinearRgb = [0.2, 0.03, 0.03];
const GROUND: LinearRgb = [0.03, 0.05, 0.15];
const bright = (rgb: LinearRgb): LinearRgb => [20 * rgb[0], 20 * rgb[1], 20 * rgb[2]];

describe('S14: a dark coat before haze', () => {
  it('is at −4.0, the haze at −3.0: one stop, marginal', () => {
    // derived: 0.04·62/π = 0.789 cd/m²; log₂(0.789/12.5) = −3.99; log₂(1.56/12.5) = −3.00
    const coat = (0.04 * 62) / Math.PI;
    expect(Math.abs(coat - 0.79)).toBeLessThan(halfLastDigit(2));
    expect(Math.abs(stopsAbove(coat, ZERO) + 4)).toBeLessThan(halfLastDigit(1));
    expect(Math.abs(stopsAbove(1.56, ZERO) + 3)).toBeLessThan(halfLastDigit(1));
    const stops = between([coat, coat, coat], [1.56, 1.56, 1.56], luminanceOfRgb);
    expect(Math.abs(stops + 1)).toBeLessThan(halfLastDigit(1));
    expect(Math.abs(stops)).toBeLessThan(STANDS_OUT_STOPS);
  });
});

describe('S14: a red coat before a blue ground', () => {
  it('merges in plain luminance: 0.32 stop', () => {
    // derived: .0661 against .0530
    expect(Math.abs(luminanceOfRgb(COAT) - 0.0661)).toBeLessThan(halfLastDigit(4));
    expect(Math.abs(luminanceOfRgb(GROUND) - 0.053)).toBeLessThan(halfLastDigit(4));
    const stops = between(bright(COAT), bright(GROUND), luminanceOfRgb);
    expect(Math.abs(stops - 0.32)).toBeLessThan(halfLastDigit(2));
    expect(Math.abs(stops)).toBeLessThan(STANDS_OUT_STOPS);
  });

  it('stands out by 2.29 stops in a mix of .8/.2/0, for 0.14 stop of noise', () => {
    // derived: .166 against .034, log₂ 4.882 = 2.288
    const mix = channelMix([0.8, 0.2, 0]);
    const stops = between(bright(COAT), bright(GROUND), mix);
    expect(Math.abs(stops - 2.29)).toBeLessThan(halfLastDigit(2));
    // derived: √(.8² + .2²)/√(.2126² + .7152² + .0722²) = 1.100
    expect(Math.abs(noiseCost_stops(mix, [1, 1, 1]) - 0.14)).toBeLessThan(halfLastDigit(2));
  });
});

describe('S14 on the set', () => {
  const folder = temporaryFolder();
  /** A figure in the red coat, head to foot, before a blue wall, lit flat from the camera by the display's own white. */
  const scene = (monochrome?: unknown) => ({
    keyfall: 1,
    title: 'Red coat, blue ground',
    site: { sky: { illuminance_lx: 300, cct_K: 6504 } },
    materials: {
      coat: { reflectance: COAT },
      ground: { reflectance: GROUND },
    },
    solids: [
      {
        id: 'floor',
        shape: 'box',
        position_m: [0, -0.05, 0],
        material: 'ground',
        size_m: [30, 0.1, 30],
      },
    ],
    figures: [
      {
        id: 'ada',
        name: 'Ada',
        position_m: [0, 0, 0],
        heading_deg: 0,
        skin: 'coat',
        upper: 'coat',
        lower: 'coat',
      },
    ],
    cameras: [
      {
        id: 'a',
        position_m: [0, 9, 1.5],
        look_m: [0, 0.5, 0],
        sensor_mm: [36, 24],
        focal_mm: 100,
        fNumber: 2.8,
        shutter_s: 0.02,
        iso: 1600,
        whiteBalance_K: 6504,
        ...(monochrome ? { monochrome } : {}),
      },
    ],
  });
  const median = async (...args: string[]) => {
    const file = folder.file('scene.json', JSON.stringify(scene()));
    const { out } = await keyfall('separation', file, '--json', '--error', '0.1', ...args);
    const figure = JSON.parse(out).figures[0];
    const signs = figure.stretches.map((s: { stops: number }) => s.stops);
    return signs.reduce((sum: number, s: number) => sum + s, 0) / signs.length;
  };

  it('gains those two stops between the conversions, whatever the light does', async () => {
    const plain = await median('--monochrome', 'luminance');
    const mixed = await median('--monochrome', '0.8,0.2,0');
    // derived: the light on both sides drops out: 2.288 − 0.319 = 1.969. Second bounces are tinted, a little either way.
    expect(Math.abs(mixed - plain - 1.97)).toBeLessThan(0.25);
  }, 60_000);
});
