import type { SceneDocument } from '../../scene/schema/document.ts';
import type { Lamp } from '../../scene/schema/lamp.ts';

/** What is laid over a lamp's colour, so that colour never tells lamps apart by itself. */
export type LampPattern = 'plain' | 'stripes' | 'dots' | 'bars' | 'cross';

/** How one lamp is told from all others wherever it is drawn. */
export interface LampSign {
  /** 1 to 8: which of the colours. */
  readonly number: number;
  /** The colour, as a CSS value of both schemes (styles/lamp-colours.css). */
  readonly colour: string;
  readonly pattern: LampPattern;
  /** Colour and pattern together as an SVG fill; wants `<LampPatterns />` somewhere on the page. */
  readonly fill: string;
  /** One to four letters, unlike those of any other lamp of the document. */
  readonly initial: string;
}

export const LAMP_COLOURS = 8;
/** Plain for the first four colours and hatched for the next, on to the next pattern with every four: 40 signs. */
export const LAMP_PATTERNS: readonly LampPattern[] = ['plain', 'stripes', 'dots', 'bars', 'cross'];
const COLOURS_IN_A_ROW = 4;

const known = new WeakMap<readonly Lamp[], ReadonlyMap<string, LampSign>>();
let last: { readonly key: string; readonly signs: ReadonlyMap<string, LampSign> } | undefined;

/**
 * The sign of a lamp. It goes by the lamp's id, so it stays through moves, switches, new names and new lamps; lamps whose
 * ids want the same sign get the next free one in the order of the document. Up to 40 lamps differ in colour or pattern,
 * all lamps in their initial. A lamp that the document has not (any more) gets a sign of its id alone.
 */
export function lampSign(document: Pick<SceneDocument, 'lamps'> | undefined, id: string): LampSign {
  return lampSigns(document?.lamps ?? []).get(id) ?? signAt(wantedBy(id), firstLetter(id, id));
}

/** The signs of all lamps, by id; the same map for the same list, and while its lamps only move. */
export function lampSigns(lamps: readonly Lamp[]): ReadonlyMap<string, LampSign> {
  const before = known.get(lamps);
  if (before) return before;
  const key = JSON.stringify(lamps.map(({ id, name }) => [id, name]));
  const signs = last?.key === key ? last.signs : newSigns(lamps);
  last = { key, signs };
  known.set(lamps, signs);
  return signs;
}

function newSigns(lamps: readonly Lamp[]): ReadonlyMap<string, LampSign> {
  const takenPlaces = new Set<number>();
  const takenInitials = new Set<string>();
  const signs = new Map<string, LampSign>();
  for (const { id, name } of lamps) {
    const place = freePlace(wantedBy(id), takenPlaces);
    const initial = freeInitial(id, name ?? id, takenInitials);
    takenPlaces.add(place);
    takenInitials.add(initial);
    signs.set(id, signAt(place, initial));
  }
  return signs;
}

function signAt(place: number, initial: string): LampSign {
  const number = 1 + (place % LAMP_COLOURS);
  const pattern = LAMP_PATTERNS[Math.floor(place / COLOURS_IN_A_ROW) % LAMP_PATTERNS.length]!;
  const colour = `var(--lamp-${number})`;
  const fill = pattern === 'plain' ? colour : `url(#${patternId(number, pattern)})`;
  return { number, colour, pattern, fill, initial };
}

export function patternId(number: number, pattern: LampPattern): string {
  return `lamp-${number}-${pattern}`;
}

/** Among the first eight signs: 32-bit FNV-1a of the id. */
function wantedBy(id: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < id.length; i++) hash = Math.imul(hash ^ id.charCodeAt(i), 0x01000193);
  return (hash >>> 0) % LAMP_COLOURS;
}

/** The wanted colour with the first pattern that leaves a sign free, or the next colour; beyond 40 lamps signs repeat. */
function freePlace(wanted: number, taken: ReadonlySet<number>): number {
  for (let round = 0; round < LAMP_PATTERNS.length; round++) {
    for (let step = 0; step < LAMP_COLOURS; step++) {
      const place = round * LAMP_COLOURS + ((wanted + step) % LAMP_COLOURS);
      if (!taken.has(place)) return place;
    }
  }
  return wanted;
}

const LETTER = /[\p{L}\p{N}]\p{M}*/u;
const LAST_NUMBER = /(\d{1,2})\D*$/u;

function freeInitial(id: string, name: string, taken: ReadonlySet<string>): string {
  const first = firstLetter(name, id);
  const number = LAST_NUMBER.exec(name)?.[1];
  const second = name.trim().split(/\s+/u)[1];
  const wanted = [
    ...(number === undefined ? [first] : [first + number]),
    ...(second === undefined ? [] : [first + firstLetter(second, '')]),
  ];
  for (const initial of wanted) if (!taken.has(initial)) return initial;
  for (let n = 2; ; n++) if (!taken.has(`${first}${n}`)) return `${first}${n}`;
}

function firstLetter(text: string, otherwise: string): string {
  return (LETTER.exec(text)?.[0] ?? LETTER.exec(otherwise)?.[0] ?? '').toUpperCase();
}
