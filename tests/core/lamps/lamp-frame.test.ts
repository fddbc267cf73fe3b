import { describe, expect, it } from 'vitest';
import { lampFrame } from '../../../src/core/lamps/lamp-frame.ts';
import { cross, dot, length, type Vec3 } from '../../../src/core/math/vec3.ts';

const close = (got: Vec3, wanted: Vec3) => {
  for (let i = 0; i < 3; i++) expect(got[i]!).toBeCloseTo(wanted[i]!, 12);
};

describe("a lamp's own axes", () => {
  it('has r to the right and t up for someone behind a level lamp', () => {
    // derived: looking along +z with y up, the right hand is at −x
    const frame = lampFrame([0, 2, 0], [0, 2, 5]);
    close(frame.a, [0, 0, 1]);
    close(frame.r, [-1, 0, 0]);
    close(frame.t, [0, 1, 0]);
  });

  it('has C 0 toward +x and C 90 toward −z when aimed straight down', () => {
    // the document's convention: counter-clockwise seen from above, as LM-63 type C counts
    const frame = lampFrame([1, 4, 2], [1, 0, 2]);
    close(frame.r, [1, 0, 0]);
    close(frame.t, [0, 0, -1]);
  });

  it('takes the same axes within 0.1° of vertical, and the upright rule from there', () => {
    const within = lampFrame([0, 1, 0], [Math.tan((0.09 * Math.PI) / 180), 0, 0]);
    expect(within.r[0]).toBeGreaterThan(0.99);
    const beyond = lampFrame([0, 1, 0], [Math.tan((0.2 * Math.PI) / 180), 0, 0]);
    close(beyond.r, [0, 0, 1]);
  });

  it('rolls clockwise as seen from behind: the top goes to the right', () => {
    const frame = lampFrame([0, 0, 0], [0, 0, 1], 90);
    close(frame.t, [-1, 0, 0]);
    close(frame.r, [0, -1, 0]);
  });

  it('is orthonormal with t = r × a in any direction', () => {
    for (const aim of [
      [1, 2, 3],
      [-4, 0.1, 2],
      [0, -3, 0.001],
      [0, 7, 0],
      [5, -5, -5],
    ] as Vec3[]) {
      const { r, t, a } = lampFrame([0, 0, 0], aim, 33);
      for (const axis of [r, t, a]) expect(length(axis)).toBeCloseTo(1, 12);
      expect(dot(r, t)).toBeCloseTo(0, 12);
      expect(dot(r, a)).toBeCloseTo(0, 12);
      close(cross(r, a), t);
    }
  });
});
