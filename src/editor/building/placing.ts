import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { Vec3 } from '../../core/math/vec3.ts';
import type { Made, Recipe } from '../../scene/building/recipe.ts';
import type { Command } from '../../scene/commands/command.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { surroundingsShown } from './surroundings-shown.ts';
import { takeUp } from './take-up.ts';

/** A thing in hand, to be put down where a drawing is pressed or dropped on. */
export interface Placing {
  /** What it is: "Small LED head, narrow reflector". */
  readonly name: string;
  /** What the next press does: "Stand here", then "Look there". */
  readonly hint: string;
  /** The points pressed so far: a drawing may draw a line from the last one to the pointer. */
  readonly points_m: readonly Vec3[];
  /**
   * The edit that putting it at this point would be; empty while a further point is asked for. Only x and z of the point
   * count: the thing is stood on what is under it.
   */
  make(position_m: Vec3): readonly Command[];
}

interface InHand {
  readonly placing: Placing | null;
}

const hand = createStore<InHand>(() => ({ placing: null }));
let inHand: { store: EditorStore; recipe: Recipe; points_m: readonly Vec3[] } | null = null;

/** What is in hand, for whoever draws the plan. */
export function usePlacing(): Placing | null {
  return useStore(hand, ({ placing }) => placing);
}

export function placingNow(): Placing | null {
  return hand.getState().placing;
}

/** What is in hand, as the catalogue has it. */
export function recipeInHand(): Recipe | null {
  return inHand?.recipe ?? null;
}

/** Takes a thing in hand in place of what was. Things that have no place on the plan cannot be. */
export function startPlacing(store: EditorStore, recipe: Recipe): void {
  if (recipe.points.length === 0) return;
  inHand = { store, recipe, points_m: [] };
  show();
}

/** Puts the hand down: Escape, or a drag that ended elsewhere. */
export function stopPlacing(): void {
  inHand = null;
  show();
}

/**
 * A press or a drop at a point of the ground: puts the thing in hand there, as one step, and chooses it; or keeps the point,
 * if a further one is asked for. Whether the scene was changed.
 */
export function placeAt(position_m: Vec3): boolean {
  if (!inHand) return false;
  const { store, recipe } = inHand;
  const points_m = [...inHand.points_m, position_m];
  if (points_m.length < recipe.points.length) {
    inHand = { store, recipe, points_m };
    show();
    return false;
  }
  const made = madeAt(store, recipe, points_m);
  stopPlacing();
  return made !== null && takeUp(store, made);
}

function show(): void {
  hand.setState({ placing: inHand && shown(inHand) });
}

function shown({ store, recipe, points_m }: NonNullable<typeof inHand>): Placing {
  return {
    name: recipe.name,
    hint: recipe.points[points_m.length]!,
    points_m,
    make(position_m) {
      const points = [...points_m, position_m];
      return points.length < recipe.points.length ? [] : (madeAt(store, recipe, points)?.commands ?? []);
    },
  };
}

function madeAt(store: EditorStore, recipe: Recipe, points_m: readonly Vec3[]): Made | null {
  const surroundings = surroundingsShown(store.getState());
  if (!surroundings || recipe.lacking(surroundings) !== null) return null;
  return recipe.make(surroundings, points_m);
}
