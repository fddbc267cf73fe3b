import { apparentPower_VA } from '../../core/electrical/load.ts';
import { entryNamed, LIBRARY, type Library } from '../library/library.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Head } from '../schema/head.ts';
import type { Lamp } from '../schema/lamp.ts';

/** What a lamp draws at full output. Every lamp in the document has one, on or off. */
export interface LampLoad {
  readonly id: string;
  readonly name: string;
  readonly head: string;
  readonly on: boolean;
  readonly supply: string | null;
  /** The phase that the document names, where its supply has three. */
  readonly phase: Phase | null;
  /** Null where its head says nothing of what it draws. */
  readonly draw: Draw | null;
}

export type Phase = 1 | 2 | 3;

export interface Draw {
  readonly load_W: number;
  readonly load_VA: number;
  readonly powerFactor: number;
  /** Whether the power factor was not given. */
  readonly assumed: boolean;
}

/**
 * Of a head whose power factor is not given: 1 for tungsten, otherwise that of an uncorrected ballast or driver, which errs on
 * the large side: common practice, no source.
 */
export const UNCORRECTED_POWER_FACTOR = 0.6;

export function lampLoads(document: SceneDocument, library: Library = LIBRARY): LampLoad[] {
  return (document.lamps ?? []).map((lamp) => lampLoad(lamp, document, library));
}

function lampLoad(lamp: Lamp, document: SceneDocument, library: Library): LampLoad {
  const head = entryNamed(document.heads, library.heads, lamp.head)!;
  const supply = document.supplies?.find((s) => s.id === lamp.supply);
  return {
    id: lamp.id,
    name: lamp.name ?? lamp.id,
    head: lamp.head,
    on: lamp.on !== false,
    supply: supply?.id ?? null,
    phase: supply?.phases === 3 ? (lamp.phase ?? null) : null,
    draw: drawOf(head, supply?.kind === 'battery'),
  };
}

/** What a head draws at full output; on direct current there is no power factor. Null where nothing is known. */
export function drawOf(head: Head, directCurrent: boolean): Draw | null {
  const { electrical } = head;
  if (!electrical) return null;
  const { input_W, kind } = electrical;
  const assumed = !directCurrent && electrical.powerFactor === undefined && kind !== 'tungsten';
  const powerFactor = directCurrent
    ? 1
    : (electrical.powerFactor ?? (assumed ? UNCORRECTED_POWER_FACTOR : 1));
  const load_VA = input_W > 0 ? apparentPower_VA(input_W, powerFactor) : 0;
  return { load_W: input_W, load_VA, powerFactor, assumed };
}
