import type { Vec3 } from '../../core/math/vec3.ts';
import type { Command } from '../commands/command.ts';
import type { Camera } from '../schema/camera.ts';
import type { SceneDocument } from '../schema/document.ts';

/** What a new thing goes by: what there is, what is chosen, and the camera that is looked through. */
export interface Surroundings {
  /** As the setup that is shown has it. */
  readonly document: SceneDocument;
  /** Ids, the last one chosen last. */
  readonly chosen: readonly string[];
  readonly camera: Camera | undefined;
  /** The setup that is shown. */
  readonly setup?: string | undefined;
}

/** A thing ready to be added, in one step. */
export interface Made {
  readonly commands: readonly Command[];
  /** What is to be chosen then. */
  readonly chosen: readonly string[];
  /** What undo calls it. */
  readonly step: string;
}

export const GROUPS = [
  'Lamps',
  'Figures',
  'Marks',
  'Cameras',
  'Ground and set',
  'Vehicles',
  'Air and sky',
  'Power',
  'Moves and areas',
  'Setups',
  'Filters',
  'Materials',
  'Panes',
] as const;
export type Group = (typeof GROUPS)[number];

/** Something that can be added to a scene, with all that it needs to be useful at once. */
export interface Recipe {
  /** Unique, and the same for ever: `head:led-head-spot`. */
  readonly id: string;
  readonly group: Group;
  readonly name: string;
  /** What it is or is for, in a line. */
  readonly about: string;
  /** Other words that it is found by. */
  readonly also?: readonly string[];
  /** What each press on the plan means; empty for what has no place. */
  readonly points: readonly string[];
  /** What must be chosen or be there first, in words; null where it can be had now. */
  lacking(surroundings: Surroundings): string | null;
  /**
   * In a sensible place or, with the points that were pressed, there. Of these only x and z count: things are stood on what
   * is under them. Only where nothing is lacking.
   */
  make(surroundings: Surroundings, points_m?: readonly Vec3[]): Made;
}

export function nothingLacking(): null {
  return null;
}
