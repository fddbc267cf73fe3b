import { describe, expect, it } from 'vitest';
import { type Face, faceArea_m2, faceRadius_m, placeOnFace } from '../../../src/core/lamps/face.ts';

const FACES: Readonly<Record<string, Face>> = {
  disc: { shape: 'disc', radius_m: 0.7 },
  rectangle: { shape: 'rectangle', halfSize_m: [0.9, 0.25] },
  octagon: { shape: 'octagon', apothem_m: 0.6 },
};
const STEPS = 400;

/** Mean over an even grid of the unit square of what `value` makes of the point on the face. */
function meanOver(face: Face, value: (r_m: number, t_m: number) => number): number {
  const point = { r_m: 0, t_m: 0 };
  let sum = 0;
  for (let i = 0; i < STEPS; i++) {
    for (let j = 0; j < STEPS; j++) {
      placeOnFace(face, (i + 0.5) / STEPS, (j + 0.5) / STEPS, point);
      sum += value(point.r_m, point.t_m);
    }
  }
  return sum / STEPS ** 2;
}

describe('points on a face', () => {
  it('are centred and have the second moments of the even face', () => {
    // derived: mean r² of an even disc R²/4, of a rectangle a²/3; of a regular octagon (apothem h, half side s = h·tan 22.5°):
    // polar moment over area (3h² + s²)/6, half of it along each axis
    const s = 0.6 * Math.tan(Math.PI / 8);
    const octagon = (3 * 0.6 ** 2 + s ** 2) / 12;
    const wanted = {
      disc: [0.7 ** 2 / 4, 0.7 ** 2 / 4],
      rectangle: [0.9 ** 2 / 3, 0.25 ** 2 / 3],
      octagon: [octagon, octagon],
    };
    for (const [name, face] of Object.entries(FACES)) {
      expect(Math.abs(meanOver(face, (r) => r)), name).toBeLessThan(1e-4);
      expect(Math.abs(meanOver(face, (_, t) => t)), name).toBeLessThan(1e-4);
      const [r2, t2] = wanted[name as keyof typeof wanted];
      expect(meanOver(face, (r) => r * r) / r2!, name).toBeCloseTo(1, 3);
      expect(meanOver(face, (_, t) => t * t) / t2!, name).toBeCloseTo(1, 3);
    }
  });

  it('lie on the face', () => {
    for (const face of Object.values(FACES)) {
      expect(meanOver(face, (r, t) => (inside(face, r, t) ? 0 : 1))).toBe(0);
    }
  });

  it('fill every part of it by area', () => {
    // derived: the share of points nearer the centre than half the circumscribed radius is that part's share of the area
    const disc = meanOver(FACES.disc!, (r, t) => (Math.hypot(r, t) < 0.35 ? 1 : 0));
    expect(disc).toBeCloseTo(0.25, 2);
    const octagon = meanOver(FACES.octagon!, (r, t) => (Math.hypot(r, t) < 0.3 ? 1 : 0));
    expect(octagon).toBeCloseTo((Math.PI * 0.09) / faceArea_m2(FACES.octagon!), 2);
  });
});

describe('the size of a face', () => {
  it('is that of the figure', () => {
    // derived: regular octagon across flats w: area 2(√2 − 1)w², circumscribed radius w/2/cos 22.5°
    expect(faceArea_m2(FACES.octagon!)).toBeCloseTo(2 * (Math.SQRT2 - 1) * 1.2 ** 2, 12);
    expect(faceRadius_m(FACES.octagon!)).toBeCloseTo(0.6 / Math.cos(Math.PI / 8), 12);
    expect(faceArea_m2(FACES.rectangle!)).toBeCloseTo(1.8 * 0.5, 12);
    expect(faceArea_m2(FACES.disc!)).toBeCloseTo(Math.PI * 0.49, 12);
  });
});

function inside(face: Face, r: number, t: number): boolean {
  const margin = 1 + 1e-12;
  switch (face.shape) {
    case 'disc':
      return Math.hypot(r, t) <= face.radius_m * margin;
    case 'rectangle':
      return Math.abs(r) <= face.halfSize_m[0] * margin && Math.abs(t) <= face.halfSize_m[1] * margin;
    case 'octagon':
      return [0, 1, 2, 3, 4, 5, 6, 7].every(
        (k) => r * Math.cos((k * Math.PI) / 4) + t * Math.sin((k * Math.PI) / 4) <= face.apothem_m * margin,
      );
  }
}
