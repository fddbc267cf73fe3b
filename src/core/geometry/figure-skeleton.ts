import { radiansFromDegrees } from '../math/angle.ts';
import { add, scale, type Vec3 } from '../math/vec3.ts';

/**
 * Where a body's joints are, as fractions of its stature, in its own frame: x to its left, y up from the ground, z to
 * where it looks; the origin on the ground under the hips (standing: under the ankles as well).
 *
 * Segment lengths and joint heights as fractions of stature: R. Drillis, R. Contini, Body segment parameters, New York
 * University 1966, as reprinted in textbooks of biomechanics (D. A. Winter). Entered from memory.
 */
export type Pose = 'standing' | 'sitting' | 'leaning' | 'walking';

export const THIGH = 0.245;
export const SHANK = 0.246;
export const ANKLE_HEIGHT = 0.039;
export const FOOT_LENGTH = 0.152;
export const FOOT_BREADTH = 0.055;
export const HIP_HEIGHT = ANKLE_HEIGHT + SHANK + THIGH;
export const HIP_BREADTH = 0.191;
export const SHOULDER_HEIGHT = 0.818;
export const SHOULDER_BREADTH = 0.259;
export const UPPER_ARM = 0.186;
export const FOREARM = 0.146;
export const HAND = 0.108;
export const CHIN_HEIGHT = 0.87;

/** Height of the seat that a sitting figure needs under it. */
export const SEAT_HEIGHT = 0.27;

/** Thicknesses, chosen to give the breadths above and a plausible outline; no source. */
export const PELVIS_RADIUS = 0.07;
export const ARM_RADIUS = 0.028;
export const TORSO_RADIUS = 0.06;
export const HEAD_RADIUS = 0.05;

const HIP_HALF_SPACING = 0.05;
const SHOULDER_HALF_SPACING = SHOULDER_BREADTH / 2 - ARM_RADIUS;

/** Left and right. */
export type Pair<T> = readonly [left: T, right: T];

export interface Skeleton {
  readonly hipMiddle: Vec3;
  /** Unit vectors from the hips to the neck, and square to that, out of the chest. */
  readonly torsoUp: Vec3;
  readonly torsoForward: Vec3;
  readonly neckBase: Vec3;
  readonly headCentre: Vec3;
  readonly hips: Pair<Vec3>;
  readonly knees: Pair<Vec3>;
  readonly ankles: Pair<Vec3>;
  readonly shoulders: Pair<Vec3>;
  readonly elbows: Pair<Vec3>;
  readonly wrists: Pair<Vec3>;
  readonly fingertips: Pair<Vec3>;
}

interface PoseAngles {
  readonly hipHeight: number;
  /** Backward is positive. */
  readonly torso_deg: number;
  /** How far the ankles stand in front of the hips. */
  readonly ankleForward: Pair<number>;
  /** Forward from hanging straight down. */
  readonly upperArm_deg: Pair<number>;
  readonly forearm_deg: Pair<number>;
}

const LEAN_deg = 12;
const LEAN = radiansFromDegrees(LEAN_deg);
const LEG = THIGH + SHANK;
const KNEE_DROP_SITTING = SEAT_HEIGHT + PELVIS_RADIUS - (ANKLE_HEIGHT + SHANK);

const POSES: Readonly<Record<Pose, PoseAngles>> = {
  standing: {
    hipHeight: HIP_HEIGHT,
    torso_deg: 0,
    ankleForward: [0, 0],
    upperArm_deg: [0, 0],
    forearm_deg: [5, 5],
  },
  // Shins upright, hands on the thighs.
  sitting: {
    hipHeight: SEAT_HEIGHT + PELVIS_RADIUS,
    torso_deg: 3,
    ankleForward: pairOf(Math.sqrt(THIGH ** 2 - KNEE_DROP_SITTING ** 2)),
    upperArm_deg: [20, 20],
    forearm_deg: [75, 75],
  },
  // Straight from the heels to the neck, against something behind; the head upright.
  leaning: {
    hipHeight: ANKLE_HEIGHT + LEG * Math.cos(LEAN),
    torso_deg: LEAN_deg,
    ankleForward: pairOf(LEG * Math.sin(LEAN)),
    upperArm_deg: [0, 0],
    forearm_deg: [10, 10],
  },
  // Both feet down in mid-step, the arms against the legs.
  walking: {
    hipHeight: 0.5,
    torso_deg: -3,
    ankleForward: [0.16, -0.16],
    upperArm_deg: [-20, 20],
    forearm_deg: [-5, 40],
  },
};

export function skeleton(pose: Pose): Skeleton {
  const { hipHeight, torso_deg, ankleForward, upperArm_deg, forearm_deg } = POSES[pose];
  const tilt = radiansFromDegrees(torso_deg);
  const hipMiddle: Vec3 = [0, hipHeight, 0];
  const torsoUp: Vec3 = [0, Math.cos(tilt), -Math.sin(tilt)];
  const torsoForward: Vec3 = [0, Math.sin(tilt), Math.cos(tilt)];
  const neckBase = add(hipMiddle, scale(torsoUp, SHOULDER_HEIGHT - HIP_HEIGHT));
  const headCentre = add(neckBase, [0, (CHIN_HEIGHT + 1) / 2 - SHOULDER_HEIGHT, 0]);

  const hips = sides((side) => add(hipMiddle, [side * HIP_HALF_SPACING, 0, 0]));
  const ankles = sides((side, i): Vec3 => [side * HIP_HALF_SPACING, ANKLE_HEIGHT, ankleForward[i]]);
  const knees = sides((_, i) => knee(hips[i], ankles[i]));
  const shoulders = sides((side) => add(neckBase, [side * SHOULDER_HALF_SPACING, 0, 0]));
  const elbows = sides((side, i) => add(shoulders[i], hanging(side, upperArm_deg[i], UPPER_ARM)));
  const wrists = sides((side, i) => add(elbows[i], hanging(side, forearm_deg[i], FOREARM)));
  const fingertips = sides((side, i) => add(wrists[i], hanging(side, forearm_deg[i], HAND)));
  return {
    hipMiddle,
    torsoUp,
    torsoForward,
    neckBase,
    headCentre,
    hips,
    knees,
    ankles,
    shoulders,
    elbows,
    wrists,
    fingertips,
  };
}

function pairOf<T>(value: T): Pair<T> {
  return [value, value];
}

function sides<T>(make: (side: 1 | -1, index: 0 | 1) => T): Pair<T> {
  return [make(1, 0), make(-1, 1)];
}

/** How far the arms stand off the body. */
const ABDUCTION = radiansFromDegrees(6);

function hanging(side: 1 | -1, forward_deg: number, length: number): Vec3 {
  const forward = radiansFromDegrees(forward_deg);
  const down = length * Math.cos(ABDUCTION);
  return [side * length * Math.sin(ABDUCTION), -down * Math.cos(forward), down * Math.sin(forward)];
}

/** The knee of a leg from hip to ankle, bent forward as far as the two lengths ask. */
function knee(hip: Vec3, ankle: Vec3): Vec3 {
  const dy = ankle[1] - hip[1];
  const dz = ankle[2] - hip[2];
  const reach = Math.hypot(dy, dz);
  const along = (THIGH ** 2 - SHANK ** 2 + reach ** 2) / (2 * reach);
  const out = Math.sqrt(Math.max(0, THIGH ** 2 - along ** 2));
  return [hip[0], hip[1] + (along * dy + out * dz) / reach, hip[2] + (along * dz - out * dy) / reach];
}
