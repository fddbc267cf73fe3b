import { dot, normalize, type Vec3 } from '../../../core/math/vec3.ts';
import type { Command } from '../../../scene/commands/command.ts';
import type { SceneDocument } from '../../../scene/schema/document.ts';
import { changeThings } from './change-things.ts';
import { turned } from './mirror.ts';
import { hazeBoxId } from './plan-things.ts';

/** Where a thing looks on plan, degrees from +z toward +x; null for what has no heading of its own. */
export function headingOf_deg(document: SceneDocument, id: string): number | null {
  const figure = document.figures?.find((one) => one.id === id);
  if (figure) return figure.heading_deg ?? 0;
  const solid = document.solids?.find((one) => one.id === id);
  if (solid) return solid.shape === 'sphere' ? null : (solid.rotation_deg?.[1] ?? 0);
  const region = document.haze?.regions?.find((_, i) => hazeBoxId(i) === id);
  if (region) return region.rotation_deg?.[1] ?? 0;
  const facing = document.marks?.find((one) => one.id === id)?.facing;
  return typeof facing === 'object' ? headingAlong_deg(facing) : null;
}

/** The heading of a direction; null straight up or down. */
export function headingAlong_deg([x, , z]: Vec3): number | null {
  return Math.hypot(x, z) > 1e-6 ? turned((Math.atan2(x, z) * 180) / Math.PI) : null;
}

/** Commands that turn a thing about the upright axis to a heading. */
export function turnThing(document: SceneDocument, id: string, heading_deg: number): readonly Command[] {
  const heading = turned(heading_deg);
  const rotated = ({
    rotation_deg,
  }: {
    rotation_deg?: Vec3 | undefined;
  }): { rotation_deg: [number, number, number] } => ({
    rotation_deg: [rotation_deg?.[0] ?? 0, heading, rotation_deg?.[2] ?? 0],
  });
  return changeThings(document, new Set([id]), {
    figures: () => ({ heading_deg: heading }),
    solids: rotated,
    haze: rotated,
    marks: ({ facing }) => (typeof facing === 'object' ? { facing: facingAt(facing, heading) } : {}),
  });
}

function facingAt(facing: Vec3, heading_deg: number): [number, number, number] {
  const unit = normalize(facing);
  const level = Math.sqrt(Math.max(0, 1 - dot(unit, [0, 1, 0]) ** 2));
  const heading = (heading_deg * Math.PI) / 180;
  const rounded = (v: number) => Math.round(v * 1e4) / 1e4 + 0;
  return [rounded(level * Math.sin(heading)), rounded(unit[1]), rounded(level * Math.cos(heading))];
}

/** Headings catch on multiples of this. */
const CATCH_EVERY_deg = 15;
const CATCH_WITHIN_deg = 3;

/** To the nearest whole degree, or to the nearest 15° where it is close. */
export function caughtHeading_deg(heading_deg: number, catching: boolean): number {
  const nearest = Math.round(heading_deg / CATCH_EVERY_deg) * CATCH_EVERY_deg;
  if (catching && Math.abs(heading_deg - nearest) <= CATCH_WITHIN_deg) return turned(nearest);
  return turned(Math.round(heading_deg));
}
