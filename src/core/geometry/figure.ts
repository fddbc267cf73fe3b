import { add, cross, distance, normalize, scale, subtract, type Vec3 } from '../math/vec3.ts';
import {
  ANKLE_HEIGHT,
  ARM_RADIUS,
  CHIN_HEIGHT,
  FOOT_BREADTH,
  FOOT_LENGTH,
  HEAD_RADIUS,
  HIP_BREADTH,
  PELVIS_RADIUS,
  type Pose,
  type Skeleton,
  skeleton,
  TORSO_RADIUS,
} from './figure-skeleton.ts';
import { type Placement, placementFrom, placementWithin, WORLD } from './placement.ts';
import type { Shape } from './shape.ts';

/** A person as a few rounded shapes: enough for light to wrap, for shadows and for an outline. */
export interface FigureSpec {
  /** On the ground under the hips. */
  readonly position_m: Vec3;
  /** 0 looks along +z, 90 along +x. */
  readonly heading_deg: number;
  readonly pose: Pose;
  /** Stature, from the soles to the crown when standing upright. */
  readonly height_m: number;
}

export interface FigurePart {
  readonly shape: Extract<Shape, { kind: 'box' | 'capsule' }>;
  /** What covers it: bare, or clothes above or below the waist (shoes with the latter). */
  readonly role: 'skin' | 'upper' | 'lower';
  readonly name: string;
}

/** As fractions of stature; no source but the breadths they add up to. */
const NECK_RADIUS = 0.033;
const TORSO_HALF_SPACING = 0.035;
const TORSO_FROM_HIP: readonly [bottom: number, top: number] = [0.02, 0.23];
const THIGH_RADIUS = 0.047;
const SHANK_RADIUS = 0.033;
const FOREARM_RADIUS = 0.024;
const HAND_RADIUS = 0.02;
const HEEL_BEHIND_ANKLE = 0.04;

/** The body's shapes in the world. */
export function figureParts(spec: FigureSpec): FigurePart[] {
  const frame = placementFrom(spec.position_m, [0, spec.heading_deg, 0]);
  return [...bodyParts(skeleton(spec.pose))].map((part) => ({
    ...part,
    shape: enlarged(part.shape, spec.height_m, frame),
  }));
}

/** The shapes of a body one metre tall in its own frame. */
function* bodyParts(body: Skeleton): Generator<FigurePart> {
  const { hipMiddle, torsoUp, torsoForward, neckBase, headCentre } = body;
  const headHalfLength = (1 - CHIN_HEIGHT) / 2 - HEAD_RADIUS;
  const upright = (offset: number): Vec3 => add(headCentre, [0, offset, 0]);
  yield {
    shape: limb(upright(-headHalfLength), upright(headHalfLength), HEAD_RADIUS),
    role: 'skin',
    name: 'head',
  };
  yield { shape: limb(neckBase, headCentre, NECK_RADIUS), role: 'skin', name: 'neck' };

  const [bottom, top] = TORSO_FROM_HIP;
  const torsoPoint = (sideways: number, up: number): Vec3 =>
    add(add(hipMiddle, [sideways, 0, 0]), scale(torsoUp, up));
  for (const side of [1, -1])
    yield {
      shape: limb(
        torsoPoint(side * TORSO_HALF_SPACING, bottom),
        torsoPoint(side * TORSO_HALF_SPACING, top),
        TORSO_RADIUS,
      ),
      role: 'upper',
      name: side > 0 ? 'torso, left' : 'torso, right',
    };
  yield {
    shape: {
      kind: 'box',
      placement: { origin_m: torsoPoint(0, (bottom + top) / 2), x: [1, 0, 0], y: torsoUp, z: torsoForward },
      halfSize_m: [TORSO_HALF_SPACING, (top - bottom) / 2, TORSO_RADIUS],
    },
    role: 'upper',
    name: 'torso',
  };
  const pelvisReach: Vec3 = [HIP_BREADTH / 2 - PELVIS_RADIUS, 0, 0];
  yield {
    shape: limb(subtract(hipMiddle, pelvisReach), add(hipMiddle, pelvisReach), PELVIS_RADIUS),
    role: 'lower',
    name: 'pelvis',
  };
  for (const side of [0, 1] as const) yield* limbs(body, side);
}

function* limbs(body: Skeleton, side: 0 | 1): Generator<FigurePart> {
  const which = side === 0 ? 'left' : 'right';
  const [shoulder, elbow, wrist, fingertip] = [
    body.shoulders[side],
    body.elbows[side],
    body.wrists[side],
    body.fingertips[side],
  ];
  const [hip, knee, ankle] = [body.hips[side], body.knees[side], body.ankles[side]];
  const fingers = add(fingertip, scale(normalize(subtract(wrist, fingertip)), HAND_RADIUS));
  yield { shape: limb(shoulder, elbow, ARM_RADIUS), role: 'upper', name: `${which} upper arm` };
  yield { shape: limb(elbow, wrist, FOREARM_RADIUS), role: 'upper', name: `${which} forearm` };
  yield { shape: limb(wrist, fingers, HAND_RADIUS), role: 'skin', name: `${which} hand` };
  yield { shape: limb(hip, knee, THIGH_RADIUS), role: 'lower', name: `${which} thigh` };
  yield { shape: limb(knee, ankle, SHANK_RADIUS), role: 'lower', name: `${which} shin` };
  yield {
    shape: {
      kind: 'box',
      placement: {
        ...WORLD,
        origin_m: add(ankle, [0, -ANKLE_HEIGHT / 2, FOOT_LENGTH / 2 - HEEL_BEHIND_ANKLE]),
      },
      halfSize_m: [FOOT_BREADTH / 2, ANKLE_HEIGHT / 2, FOOT_LENGTH / 2],
    },
    role: 'lower',
    name: `${which} foot`,
  };
}

/** A capsule whose round ends are centred on two joints. */
function limb(from: Vec3, to: Vec3, radius_m: number): Extract<Shape, { kind: 'capsule' }> {
  const y = normalize(subtract(to, from));
  const x = normalize(cross(y, Math.abs(y[0]) < 0.9 ? [1, 0, 0] : [0, 0, 1]));
  return {
    kind: 'capsule',
    placement: { origin_m: scale(add(from, to), 0.5), x, y, z: cross(x, y) },
    radius_m,
    halfLength_m: distance(from, to) / 2,
  };
}

function enlarged(shape: FigurePart['shape'], factor: number, frame: Placement): FigurePart['shape'] {
  const origin_m = scale(shape.placement.origin_m, factor);
  const placement = placementWithin(frame, { ...shape.placement, origin_m });
  return shape.kind === 'box'
    ? { ...shape, placement, halfSize_m: scale(shape.halfSize_m, factor) }
    : { ...shape, placement, radius_m: shape.radius_m * factor, halfLength_m: shape.halfLength_m * factor };
}
