import { perSquaredFNumber } from '../../core/exposure/zero.ts';
import type { IlluminanceUnit } from '../../paperwork/exposure-sheet.ts';
import { freshId, takenIds } from '../../scene/building/fresh-names.ts';
import { calibrationOf } from '../../scene/camera/scene-camera.ts';
import type { Command } from '../../scene/commands/command.ts';
import { differing, remembered } from '../../scene/readings/as-taken.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';
import type { Reading, TakenLamp } from '../../scene/schema/mark.ts';
import { numberFromText } from '../figures/number-text.ts';
import { QUANTITIES } from '../figures/quantity.ts';

/** What was read off a meter, as it is typed. */
export interface MeterEntry {
  readonly mark: string;
  readonly lamps: readonly string[];
  readonly receptor: 'flat' | 'dome';
  readonly shows: 'light' | 'f-number';
  /** Where it shows light, in `unit` unless the text says otherwise. */
  readonly light: string;
  readonly unit: IlluminanceUnit;
  /** Where it shows an f-number, with so many tenths of a stop over it, at this shutter and speed. */
  readonly fNumber: string;
  readonly tenths: number;
  readonly shutter: string;
  readonly iso: string;
}

export type Metered =
  | { readonly illuminance_lx: number; readonly wrong?: never }
  /** In words, what keeps it from being read; empty while nothing has been typed. */
  | { readonly illuminance_lx?: never; readonly wrong: string };

/** More than the schema takes: the sun gives a hundredth of it. */
const MOST_lx = 1e7;

/**
 * The illuminance that a meter showed: E = C·N²/(t·S) (ISO 2720) where it showed an f-number, C that of the scene for the
 * receptor. The meter knows of no ND and no lens.
 */
export function meteredOf(entry: MeterEntry, document: SceneDocument): Metered {
  const found = entry.shows === 'light' ? fromLight(entry) : fromFNumber(entry, document);
  if (found.illuminance_lx !== undefined && found.illuminance_lx > MOST_lx)
    return { wrong: 'More light than any lamp gives: check the figure.' };
  return found;
}

function fromLight({ light, unit }: MeterEntry): Metered {
  if (light.trim() === '') return { wrong: '' };
  const lx = QUANTITIES.illuminance.fromText(light, { unit, lengths: 'metric' });
  if (lx === null || lx < 0) return { wrong: `A figure such as ${QUANTITIES.illuminance.example}.` };
  if (lx === 0) return { wrong: 'No light tells nothing of a lamp: meter nearer.' };
  return { illuminance_lx: lx };
}

function fromFNumber(entry: MeterEntry, document: SceneDocument): Metered {
  if (entry.fNumber.trim() === '') return { wrong: '' };
  const taste = { unit: entry.unit, lengths: 'metric' } as const;
  const N = QUANTITIES.fNumber.fromText(entry.fNumber, taste);
  if (N === null || N <= 0 || N > 256) return { wrong: `An f-number such as ${QUANTITIES.fNumber.example}.` };
  const shutter_s = QUANTITIES.shutter.fromText(entry.shutter, taste);
  if (shutter_s === null || shutter_s <= 0)
    return { wrong: `A shutter such as ${QUANTITIES.shutter.example}.` };
  const iso = numberFromText(entry.iso);
  if (iso === null || iso < 1) return { wrong: 'An ISO speed such as 800.' };
  const C = calibrationOf(document)[entry.receptor];
  const at = { shutter_s, iso, nd_stops: 0, loss_stops: 0 };
  return { illuminance_lx: (C * N ** 2 * 2 ** (entry.tenths / 10)) / perSquaredFNumber(at) };
}

/**
 * The edit that takes a reading down. Readings belong to the base; of lamps that stand otherwise in what is shown, it
 * remembers how they stood.
 */
export function readingCommand(
  base: SceneDocument,
  shown: SceneDocument,
  { mark, lamps, receptor }: MeterEntry,
  illuminance_lx: number,
): Command {
  const taken = lamps.flatMap((id): TakenLamp[] => {
    const planned = base.lamps?.find((lamp) => lamp.id === id);
    const stood = shown.lamps?.find((lamp) => lamp.id === id);
    if (!planned || !stood) return [];
    const fields = differing(planned, stood);
    if (fields.length === 0) return [];
    return [{ lamp: id, ...Object.fromEntries(fields.map((field) => [field, remembered(stood, field)])) }];
  });
  const thing: Reading = {
    id: freshId(takenIds(base), `reading-${(base.readings?.length ?? 0) + 1}`),
    mark,
    lamps: [...lamps],
    receptor,
    illuminance_lx: Number(illuminance_lx.toPrecision(4)),
    ...(taken.length > 0 ? { taken } : {}),
  };
  return { do: 'add', to: 'readings', thing };
}
