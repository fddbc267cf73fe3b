import { freshId, takenIds } from '../../scene/building/fresh-names.ts';
import { makeLamp } from '../../scene/building/make-lamp.ts';
import type { Command } from '../../scene/commands/command.ts';
import type { FaceShape, Head } from '../../scene/schema/head.ts';
import { choose } from '../store/choose.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { edit } from '../store/edits.ts';
import { cameraShown, documentShown, setupShown } from '../store/shown-scene.ts';
import type { PhotometrySummary } from './photometry-summary.ts';

/** The kinds of light that a head's spectrum is chosen from, as the trade calls them. */
export const LIGHT_KINDS = {
  led: 'LED',
  discharge: 'Discharge',
  planck: 'Tungsten',
} as const;
export type LightKind = keyof typeof LIGHT_KINDS;

/** What a photometric file does not say of a head. */
export interface HeadChoices {
  readonly name: string;
  readonly light: LightKind;
  readonly cct_K: number;
  readonly face: FaceShape;
  /** Null where it is not known: the head then counts for nothing on its supply. */
  readonly input_W: number | null;
  readonly lampSet: number;
}

/** For a face that the file calls a point. */
const SMALL_m = 0.05;
const LEAST_m = 0.001;

/** The emitting face as the file states it: rectangles along r by along t, and anything else as a disc. */
export function faceOf({ format, opening }: PhotometrySummary): FaceShape {
  const length_m = rounded(opening.length_m);
  const width_m = rounded(opening.width_m);
  if (opening.shape === 'point') return { shape: 'disc', diameter_m: SMALL_m };
  if (opening.shape !== 'rectangle') return { shape: 'disc', diameter_m: Math.max(length_m, width_m) };
  return { shape: 'rectangle', size_m: format === 'LM-63' ? [length_m, width_m] : [width_m, length_m] };
}

/** To the millimetre, and never nothing: a face has some size. */
function rounded(size_m: number): number {
  return Math.max(LEAST_m, Number(size_m.toFixed(3)));
}

export function headFrom(fileName: string, text: string, choices: HeadChoices): Head {
  const { name, light, cct_K, face, input_W, lampSet } = choices;
  return {
    name,
    photometry: { kind: 'file', file: fileName, text, ...(lampSet > 0 ? { lampSet } : {}) },
    face,
    spectrum: { kind: light, cct_K },
    ...(input_W === null ? {} : { electrical: { kind: light === 'planck' ? 'tungsten' : light, input_W } }),
  };
}

/**
 * Defines the head and puts it into a lamp, or into a new one where none is named, in one step; what is then lit is
 * chosen. Returns whether it was taken.
 */
export function takeHead(store: EditorStore, head: Head, lampId: string | null): boolean {
  const state = store.getState();
  const document = documentShown(state);
  if (!document) return false;
  const name = freshId(takenIds(document), head.name ?? 'head');
  const commands: Command[] = [{ do: 'define', in: 'heads', name, entry: head }];
  let chosen: readonly string[] = lampId === null ? [] : [lampId];
  if (lampId === null) {
    const surroundings = {
      document: { ...document, heads: { ...document.heads, [name]: head } },
      chosen: state.chosen,
      camera: cameraShown(state),
      setup: setupShown(state),
    };
    const made = makeLamp(surroundings, name, null);
    commands.push(...made.commands);
    chosen = made.chosen;
  } else {
    commands.push({ do: 'change', id: lampId, patch: { head: name } });
  }
  if (!edit(store, commands, `Take in ${head.name ?? name}`)) return false;
  choose(store, chosen);
  return true;
}
