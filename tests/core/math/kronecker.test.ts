import { describe, expect, it } from 'vitest';
import { kroneckerU, kroneckerV, mixed32 } from '../../../src/core/math/kronecker.ts';

/** Star discrepancy over a grid of corners: the greatest miss between a corner's area and the share of points in it. */
function discrepancy(points: readonly (readonly [number, number])[]): number {
  let worst = 0;
  for (let a = 1; a <= 16; a++) {
    for (let b = 1; b <= 16; b++) {
      const [u, v] = [a / 16, b / 16];
      const share = points.filter(([x, y]) => x < u && y < v).length / points.length;
      worst = Math.max(worst, Math.abs(share - u * v));
    }
  }
  return worst;
}

const points = (n: number, shift: number) =>
  Array.from({ length: n }, (_, i) => [kroneckerU(i, shift), kroneckerV(i, mixed32(shift))] as const);

describe('the sample sequence', () => {
  it('stays in the unit square for any index and shift', () => {
    for (const shift of [0, 1, 0x7fffffff, 0xffffffff]) {
      for (const i of [0, 1, 2, 1e6, 2 ** 31]) {
        for (const x of [kroneckerU(i, shift), kroneckerV(i, shift)]) {
          expect(x).toBeGreaterThanOrEqual(0);
          expect(x).toBeLessThan(1);
        }
      }
    }
  });

  it('fills it far more evenly than chance, whatever the shift', () => {
    // derived: independent points miss by about 1/√n (0.031 at 1024); a low-discrepancy set by about log n/n (0.007)
    for (let key = 0; key < 20; key++) {
      expect(discrepancy(points(1024, mixed32(key))), `key ${key}`).toBeLessThan(0.01);
      expect(discrepancy(points(64, mixed32(key))), `key ${key}`).toBeLessThan(0.09);
    }
  });

  it('is shifted evenly by mixed keys', () => {
    // derived: 4096 keys over 16 bins, 256 each; χ² with 15 degrees of freedom is under 37.7 at 0.1 %
    const bins = new Array<number>(16).fill(0);
    for (let key = 0; key < 4096; key++) bins[mixed32(key) >>> 28]!++;
    const chi2 = bins.reduce((sum, n) => sum + (n - 256) ** 2 / 256, 0);
    expect(chi2).toBeLessThan(37.7);
  });
});
