import type { SceneDocument } from '../schema/document.ts';
import type { Lamp } from '../schema/lamp.ts';
import type { Reading, TakenLamp } from '../schema/mark.ts';
import { differing, remembered } from './as-taken.ts';

/**
 * The edited document, with every reading remembering how its lamps stood before the edit. What it remembers already is
 * older and stays: of a drag, only the first step is kept.
 */
export function rememberLamps(before: SceneDocument, edited: SceneDocument): SceneDocument {
  if (!edited.readings?.length || edited.lamps === before.lamps) return edited;
  const after = new Map(edited.lamps?.map((lamp) => [lamp.id, lamp]));
  const stood = new Map<string, TakenLamp>();
  for (const lamp of before.lamps ?? []) {
    const now = after.get(lamp.id);
    const entry = now && now !== lamp ? stoodBefore(lamp, now) : null;
    if (entry) stood.set(lamp.id, entry);
  }
  const readings = edited.readings.map((reading) => remembering(reading, stood));
  return readings.some((reading, k) => reading !== edited.readings![k]) ? { ...edited, readings } : edited;
}

/** Null where nothing changed that matters to a reading. */
function stoodBefore(lamp: Lamp, now: Lamp): TakenLamp | null {
  const changed = differing(lamp, now);
  if (changed.length === 0) return null;
  return { lamp: lamp.id, ...Object.fromEntries(changed.map((field) => [field, remembered(lamp, field)])) };
}

function remembering(reading: Reading, stood: ReadonlyMap<string, TakenLamp>): Reading {
  const taken = new Map(reading.taken?.map((entry) => [entry.lamp, entry]));
  let more = false;
  for (const id of reading.lamps) {
    const before = stood.get(id);
    if (!before) continue;
    const known = taken.get(id);
    const both = { ...before, ...known };
    if (known && Object.keys(both).length === Object.keys(known).length) continue;
    taken.set(id, both);
    more = true;
  }
  return more ? { ...reading, taken: [...taken.values()] } : reading;
}
