import type { SceneDocument } from '../schema/document.ts';
import type { Lamp } from '../schema/lamp.ts';
import type { Reading, TakenLamp } from '../schema/mark.ts';

/**
 * What a reading remembers of a lamp. Not `on`: its lamps are alight. Not `head`: what was metered of one head says nothing
 * of another.
 */
const REMEMBERED = ['position_m', 'aim_m', 'roll_deg', 'level', 'filters'] as const;
export type Remembered = (typeof REMEMBERED)[number];

const UNSTATED: Pick<Lamp, 'roll_deg' | 'level' | 'filters'> = { roll_deg: 0, level: 1, filters: [] };

/** A remembered field of a lamp, as it counts where the lamp does not state it. */
export function remembered(lamp: Lamp, field: Remembered): Lamp[Remembered] {
  return { ...UNSTATED, ...lamp }[field];
}

/** A lamp as it stood when the reading was taken. */
export function lampAsTaken(lamp: Lamp, { lamp: _, ...stood }: TakenLamp): Lamp {
  const { position_m = lamp.position_m, aim_m = lamp.aim_m } = stood;
  return { ...lamp, ...stood, position_m, aim_m };
}

/** The scene with the lamps as they stood when a reading was taken. */
export function sceneAsTaken(document: SceneDocument, taken: readonly TakenLamp[]): SceneDocument {
  if (taken.length === 0) return document;
  const stood = new Map(taken.map((entry) => [entry.lamp, entry]));
  return {
    ...document,
    lamps: (document.lamps ?? []).map((lamp) => {
      const entry = stood.get(lamp.id);
      return entry ? lampAsTaken(lamp, entry) : lamp;
    }),
  };
}

/** A lamp that stands otherwise now than when a reading was taken: how it stood then, and what of that is different now. */
export interface ChangedLamp {
  readonly taken: TakenLamp;
  readonly changed: readonly Remembered[];
}

export function changedSince(document: SceneDocument, reading: Reading): ChangedLamp[] {
  return (reading.taken ?? []).flatMap((taken) => {
    const now = document.lamps!.find((lamp) => lamp.id === taken.lamp)!;
    const changed = differing(lampAsTaken(now, taken), now);
    return changed.length > 0 ? [{ taken, changed }] : [];
  });
}

/** In which remembered fields two lamps differ. */
export function differing(one: Lamp, other: Lamp): Remembered[] {
  return REMEMBERED.filter(
    (field) => JSON.stringify(remembered(one, field)) !== JSON.stringify(remembered(other, field)),
  );
}
