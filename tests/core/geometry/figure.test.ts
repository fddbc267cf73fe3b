import { describe, expect, it } from 'vitest';
import { type FigurePart, type FigureSpec, figureParts } from '../../../src/core/geometry/figure.ts';
import { figureLandmarks, type LandmarkName } from '../../../src/core/geometry/figure-landmarks.ts';
import type { Pose } from '../../../src/core/geometry/figure-skeleton.ts';
import { buildGeometry } from '../../../src/core/geometry/geometry.ts';
import { worldPoint } from '../../../src/core/geometry/placement.ts';
import { nearestHit } from '../../../src/core/geometry/ray-query.ts';
import { newHit } from '../../../src/core/geometry/ray-shape.ts';
import { solidAround } from '../../../src/core/geometry/solid-around.ts';
import { distance, length, scale, subtract, type Vec3 } from '../../../src/core/math/vec3.ts';
import { halfLastDigit, IDENTITY } from '../../tolerances.ts';

const ADA: FigureSpec = { position_m: [-2, 0.5, 1], heading_deg: 0, pose: 'standing', height_m: 1.7 };
const POSES: readonly Pose[] = ['standing', 'sitting', 'leaning', 'walking'];
const packed = (parts: readonly FigurePart[]) =>
  buildGeometry(parts.map(({ shape }) => ({ shape, substance: { kind: 'material', index: 0 }, owner: 0 })));

/** Lowest and highest along an axis of the parts whose names match. */
function reach(spec: FigureSpec, axis: 0 | 1 | 2, name = /./): readonly [number, number] {
  const parts = figureParts(spec);
  const { bounds } = packed(parts);
  const chosen = parts.flatMap((part, s) => (name.test(part.name) ? [s] : []));
  return [
    Math.min(...chosen.map((s) => bounds[6 * s + axis]!)),
    Math.max(...chosen.map((s) => bounds[6 * s + 3 + axis]!)),
  ];
}

function partNamed(spec: FigureSpec, name: string): FigurePart['shape'] {
  return figureParts(spec).find((part) => part.name === name)!.shape;
}

/** The two ends of a limb, at its joints, the one nearer the trunk first. */
function joints(spec: FigureSpec, name: string): readonly [Vec3, Vec3] {
  const shape = partNamed(spec, name);
  if (shape.kind !== 'capsule') throw new Error(name);
  return [
    worldPoint(shape.placement, [0, -shape.halfLength_m, 0]),
    worldPoint(shape.placement, [0, shape.halfLength_m, 0]),
  ];
}

describe('a figure', () => {
  it.each([1.2, 1.7, 2.05])('%d m tall is exactly that when it stands', (height_m) => {
    const [low, high] = reach({ ...ADA, height_m }, 1);
    expect(Math.abs(low - 0.5)).toBeLessThan(IDENTITY);
    expect(Math.abs(high - 0.5 - height_m)).toBeLessThan(IDENTITY);
  });

  it('is lower in every other pose, and its head is upright above its shoulders', () => {
    for (const pose of POSES.slice(1)) {
      const [, high] = reach({ ...ADA, pose }, 1);
      expect(high - 0.5, pose).toBeLessThan(0.99 * 1.7);
      expect(high).toBe(reach({ ...ADA, pose }, 1, /head/)[1]);
    }
  });

  it.each(POSES)('%s has both feet flat on the ground and nothing below it', (pose) => {
    const spec = { ...ADA, pose };
    expect(Math.abs(reach(spec, 1)[0] - 0.5)).toBeLessThan(IDENTITY);
    for (const foot of [/left foot/, /right foot/])
      expect(Math.abs(reach(spec, 1, foot)[0] - 0.5)).toBeLessThan(IDENTITY);
  });

  it('has the limbs of a body of its stature, whatever it does', () => {
    // published: segment lengths as fractions of stature, Drillis & Contini 1966 (from memory).
    for (const pose of POSES)
      for (const side of ['left', 'right'])
        for (const [name, fraction] of [
          ['upper arm', 0.186],
          ['forearm', 0.146],
          ['thigh', 0.245],
          ['shin', 0.246],
        ] as const) {
          const [a, b] = joints({ ...ADA, pose, height_m: 1 }, `${side} ${name}`);
          expect(Math.abs(distance(a, b) - fraction), `${pose} ${side} ${name}`).toBeLessThan(
            halfLastDigit(3),
          );
        }
  });

  it('has joints at the heights of a body of its stature when it stands', () => {
    // published: joint heights as fractions of stature, Drillis & Contini 1966 (from memory). Their figure for the
    // hand does not count how far the arm stands off the body: 1 % of the arm's length.
    const tall = { ...ADA, position_m: [0, 0, 0] as const, height_m: 1 };
    expect(joints(tall, 'left shin')[0][1]).toBeCloseTo(0.285, 3);
    expect(joints(tall, 'left thigh')[0][1]).toBeCloseTo(0.53, 3);
    expect(Math.abs(joints(tall, 'left upper arm')[0][1] - 0.818)).toBeLessThan(halfLastDigit(3));
    expect(Math.abs(joints(tall, 'left upper arm')[1][1] - 0.63)).toBeLessThan(0.005);
    expect(Math.abs(reach(tall, 1, /left hand/)[0] - 0.377)).toBeLessThan(0.006);
    expect(Math.abs(reach(tall, 1, /head/)[0] - 0.87)).toBeLessThan(halfLastDigit(3));
    // published: breadth over the shoulders 0.259, over the hips 0.191 of stature, the same source.
    const shoulders = joints(tall, 'left upper arm')[0][0] - joints(tall, 'right upper arm')[0][0];
    expect(Math.abs(shoulders + 2 * 0.028 - 0.259)).toBeLessThan(halfLastDigit(3));
    const [left, right] = reach(tall, 0, /pelvis/);
    expect(Math.abs(right - left - 0.191)).toBeLessThan(halfLastDigit(3));
  });

  it('sits on a seat 0.27 of its stature high, its shins upright', () => {
    const spec: FigureSpec = { ...ADA, pose: 'sitting', height_m: 1.8 };
    const [seat] = reach(spec, 1, /pelvis|torso/);
    expect(Math.abs(seat - 0.5 - 0.27 * 1.8)).toBeLessThan(IDENTITY);
    const [knee, ankle] = joints(spec, 'left shin');
    expect(Math.abs(knee[2] - ankle[2])).toBeLessThan(1e-9);
    expect(knee[2]).toBeGreaterThan(1 + 0.2 * 1.8);
  });

  it('leans back 12° in one line from ankle to shoulder', () => {
    const spec: FigureSpec = { ...ADA, pose: 'leaning' };
    const line = (name: string) => {
      const [a, b] = joints(spec, name);
      const [top, bottom] = a[1] > b[1] ? [a, b] : [b, a];
      return (Math.atan2(bottom[2] - top[2], top[1] - bottom[1]) * 180) / Math.PI;
    };
    for (const name of ['left shin', 'right thigh', 'torso, left'])
      expect(line(name), name).toBeCloseTo(12, 6);
  });

  it('walks with one foot ahead and the other arm forward', () => {
    const spec: FigureSpec = { ...ADA, pose: 'walking' };
    expect(reach(spec, 2, /left foot/)[0]).toBeGreaterThan(reach(spec, 2, /right foot/)[1] - 0.01);
    expect(reach(spec, 2, /right hand/)[1]).toBeGreaterThan(reach(spec, 2, /left hand/)[1]);
  });

  it('is bare at the head and hands, and dressed above and below the waist', () => {
    const roles = Object.fromEntries(figureParts(ADA).map(({ name, role }) => [name, role]));
    for (const name of ['head', 'neck', 'left hand', 'right hand']) expect(roles[name], name).toBe('skin');
    for (const name of ['torso', 'left upper arm', 'right forearm']) expect(roles[name], name).toBe('upper');
    for (const name of ['pelvis', 'left thigh', 'right shin', 'left foot'])
      expect(roles[name], name).toBe('lower');
  });

  it('points its feet along +z at heading 0 and along +x at 90', () => {
    expect(reach(ADA, 2, /foot/)[1] - 1).toBeGreaterThan(0.1);
    expect(reach({ ...ADA, heading_deg: 90 }, 0, /foot/)[1] + 2).toBeGreaterThan(0.1);
    expect(reach({ ...ADA, heading_deg: 90 }, 2, /foot/)[1] - 1).toBeLessThan(0.15);
    expect(reach({ ...ADA, heading_deg: 180 }, 2, /foot/)[0] - 1).toBeLessThan(-0.1);
  });

  it('has its left at +x when it looks along +z', () => {
    expect(joints(ADA, 'left thigh')[0][0]).toBeGreaterThan(-2);
    expect(joints(ADA, 'right thigh')[0][0]).toBeLessThan(-2);
  });
});

describe('landmarks of a figure', () => {
  const names: readonly LandmarkName[] = ['face', 'leftCheek', 'rightCheek', 'crown', 'chest', 'back'];

  it.each(POSES)('lie 5 cm off the body along their directions: %s', (pose) => {
    for (const heading_deg of [0, 75, 210]) {
      const spec = { ...ADA, pose, heading_deg, height_m: 1.83 };
      const parts = figureParts(spec);
      const geometry = packed(parts);
      const landmarks = figureLandmarks(spec);
      const hit = newHit();
      for (const name of names) {
        const { point_m, direction } = landmarks[name];
        expect(Math.abs(length(direction) - 1)).toBeLessThan(IDENTITY);
        expect(solidAround(geometry, point_m), name).toBe(-1);
        expect(nearestHit(geometry, ...point_m, ...scale(direction, -1), 0, 9, hit)).toBe(true);
        expect(Math.abs(hit.t - 0.05), `${name} ${pose}`).toBeLessThan(1e-9);
        const expected = name === 'chest' || name === 'back' ? 'upper' : 'skin';
        expect(parts[hit.shape]!.role, name).toBe(expected);
        // Nothing of the body stands in front of them.
        expect(nearestHit(geometry, ...point_m, ...direction, 0, 9, hit), name).toBe(false);
      }
    }
  });

  it('has the face at eye height, looking where the figure looks', () => {
    // published: eye height 0.936 of stature, Drillis & Contini 1966 (from memory).
    const { point_m, direction } = figureLandmarks({ ...ADA, heading_deg: 90 }).face;
    expect(distance(direction, [1, 0, 0])).toBeLessThan(IDENTITY);
    expect(Math.abs((point_m[1] - 0.5) / 1.7 - 0.936)).toBeLessThan(0.002);
    // derived: straight ahead of the position, by the head's radius (0.05 of stature) and 5 cm.
    expect(distance(point_m, [-2 + 0.05 * 1.7 + 0.05, point_m[1], 1])).toBeLessThan(IDENTITY);
  });

  it('has the cheeks on the figure’s own left and right', () => {
    const { leftCheek, rightCheek, face } = figureLandmarks(ADA);
    expect(subtract(leftCheek.point_m, face.point_m)[0]).toBeGreaterThan(0);
    expect(subtract(rightCheek.point_m, face.point_m)[0]).toBeLessThan(0);
  });
});
