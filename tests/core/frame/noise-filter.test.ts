import { describe, expect, it } from 'vitest';
import { withoutNoise } from '../../../src/core/frame/noise-filter.ts';
import { nextRandom, seededRandom } from '../../../src/core/math/random.ts';
import { luminance } from '../../../src/core/transport/light-bins.ts';

const SEED = 3;
const [W, H] = [60, 40];

/** Invented: a slope in brightness, a dark bar with hard edges, a warm patch. */
function truth(): Float64Array {
  const rgb = new Float64Array(3 * W * H);
  for (let y = 0; y < H; y++) {
    for (let x = 0; x < W; x++) {
      const level = x >= 20 && x < 26 ? 0.05 : 1 + x / W;
      const warm = x > 40 && y > 20 ? [1.6, 1, 0.3] : [1, 1, 1];
      for (let c = 0; c < 3; c++) rgb[3 * (y * W + x) + c] = level * warm[c]!;
    }
  }
  return rgb;
}

/** The truth with noise of so much of each pixel, the same in its three colours, as the noise of light is. */
function noisy(rgb: Float64Array, share: number, random: ReturnType<typeof seededRandom>): Float64Array {
  const out = new Float64Array(rgb.length);
  for (let p = 0; p < rgb.length / 3; p++) {
    const normal =
      Math.sqrt(-2 * Math.log(1 - nextRandom(random))) * Math.cos(2 * Math.PI * nextRandom(random));
    for (let c = 0; c < 3; c++) out[3 * p + c] = rgb[3 * p + c]! * Math.max(0, 1 + share * normal);
  }
  return out;
}

const brightness = (rgb: Float64Array, p: number) => luminance(rgb[3 * p]!, rgb[3 * p + 1]!, rgb[3 * p + 2]!);

function filtered(share: number) {
  const random = seededRandom(SEED);
  const right = truth();
  const halves = [noisy(right, share, random), noisy(right, share, random)] as const;
  const variance = Float64Array.from({ length: W * H }, (_, p) => (share * brightness(right, p)) ** 2);
  return { right, halves, quiet: withoutNoise({ width_px: W, height_px: H, halves, variance }) };
}

function rms(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / values.length);
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1]!;
}

describe('taking noise out of a frame', () => {
  it('leaves less than a third of it, and says how much', () => {
    // derived: the truth that the noise was put on
    for (const share of [0.1, 0.3]) {
      const { right, halves, quiet } = filtered(share);
      const pixels = [...Array(W * H).keys()];
      const before = rms(
        pixels.map(
          (p) => (brightness(halves[0], p) + brightness(halves[1], p)) / 2 / brightness(right, p) - 1,
        ),
      );
      const after = rms(pixels.map((p) => brightness(quiet.rgb, p) / brightness(right, p) - 1));
      // A median, as frames state it: beside an edge the error of the bright side is spread over the dark one.
      const said = median(pixels.map((p) => quiet.error[p]! / brightness(right, p)));
      expect(before, `${share}`).toBeGreaterThan(0.6 * share);
      expect(after, `${share}`).toBeLessThan(before / 3);
      expect(said / after, `said ${said}, is ${after}`).toBeGreaterThan(0.7);
      expect(said / after, `said ${said}, is ${after}`).toBeLessThan(2.5);
    }
  });

  it('keeps edges, colours and the light there is', () => {
    const { right, quiet } = filtered(0.2);
    const column = (rgb: Float64Array, x: number) => {
      let sum = 0;
      for (let y = 0; y < H; y++) sum += brightness(rgb, y * W + x) / H;
      return sum;
    };
    for (const x of [18, 19, 20, 23, 25, 26, 27]) {
      expect(Math.abs(column(quiet.rgb, x) / column(right, x) - 1), `column ${x}`).toBeLessThan(0.08);
    }
    const total = (rgb: Float64Array) => rgb.reduce((sum, v) => sum + v, 0);
    expect(Math.abs(total(quiet.rgb) / total(right) - 1)).toBeLessThan(0.01);
    const warm = 3 * (35 * W + 50);
    expect(quiet.rgb[warm]! / quiet.rgb[warm + 2]!).toBeCloseTo(1.6 / 0.3, 0);
  });

  it('leaves a frame without noise as it is', () => {
    const right = truth();
    const { rgb, error } = withoutNoise({
      width_px: W,
      height_px: H,
      halves: [right, right],
      variance: new Float64Array(W * H),
    });
    for (let i = 0; i < rgb.length; i++) expect(Math.abs(rgb[i]! - right[i]!)).toBeLessThan(1e-9);
    expect(Math.max(...error)).toBeLessThan(1e-9);
  });

  it('takes a black frame, and one of a single pixel', () => {
    const black = withoutNoise({
      width_px: 5,
      height_px: 4,
      halves: [new Float64Array(60), new Float64Array(60)],
      variance: new Float64Array(20),
    });
    expect([...black.rgb, ...black.error].every((v) => v === 0)).toBe(true);
    const one = withoutNoise({
      width_px: 1,
      height_px: 1,
      halves: [Float64Array.of(1, 2, 3), Float64Array.of(3, 2, 1)],
      variance: Float64Array.of(0.1),
    });
    expect([...one.rgb]).toEqual([2, 2, 2]);
  });
});
