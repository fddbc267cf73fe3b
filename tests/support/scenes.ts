import { readFileSync } from 'node:fs';
import { openRaw } from '../../src/scene/file/open-scene.ts';
import { type Problem, problemText } from '../../src/scene/problems/problem.ts';
import type { SceneDocument } from '../../src/scene/schema/document.ts';

/** Documents for tests: fresh each time, so that a test may spoil its own. */

export const FULL_SCENE_TEXT = readFileSync(
  new URL('../fixtures/documents/version-1.json', import.meta.url),
  'utf8',
);

/** A document that uses every field of the schema. */
export function fullScene(): SceneDocument {
  return JSON.parse(FULL_SCENE_TEXT) as SceneDocument;
}

/** One lamp on one card before one camera: the least that can be metered. */
export function smallScene(): SceneDocument {
  return {
    keyfall: 1,
    title: 'Small',
    solids: [
      {
        id: 'card',
        shape: 'panel',
        position_m: [0, 1, 0],
        material: 'grey-card',
        size_m: [0.4, 0.4],
      },
    ],
    heads: {
      plain: {
        photometry: { kind: 'beam', peak_cd: 2000, beam_deg: 60, field_deg: 90 },
        face: { shape: 'disc', diameter_m: 0.05 },
        spectrum: { kind: 'planck', cct_K: 3200 },
      },
    },
    lamps: [{ id: 'key', head: 'plain', position_m: [0, 1, 4], aim_m: [0, 1, 0] }],
    marks: [{ id: 'face', position_m: [0, 1, 0.01], facing: [0, 0, 1], receptor: 'flat' }],
    cameras: [
      {
        id: 'a',
        position_m: [1, 1.2, 3],
        look_m: [0, 1, 0],
        sensor_mm: [36, 24],
        focal_mm: 50,
        fNumber: 4,
        shutter_s: 0.02,
        iso: 800,
      },
    ],
  };
}

/** Takes a field out, where it stands for a value in `edited`. */
export const ABSENT = Symbol('absent');

/** A copy with values put at paths: `edited(scene, { 'lamps.0.level': 2, 'marks.1.id': ABSENT })`. */
export function edited(scene: unknown, changes: Readonly<Record<string, unknown>>): unknown {
  const copy = structuredClone(scene);
  for (const [path, value] of Object.entries(changes)) {
    const steps = path.split('.');
    const last = steps.pop()!;
    let at = copy as Record<string, unknown>;
    for (const step of steps) at = at[step] as Record<string, unknown>;
    if (value === ABSENT) delete at[last];
    else Object.defineProperty(at, last, { value, enumerable: true, configurable: true, writable: true });
  }
  return copy;
}

/** What is wrong with the full scene after these edits. */
export function problemsOf(
  changes: Readonly<Record<string, unknown>>,
  scene: unknown = fullScene(),
): readonly Problem[] {
  return openRaw(edited(scene, changes)).problems;
}

/** The same as lines of text, as the command line prints them. */
export function linesOf(changes: Readonly<Record<string, unknown>>, scene?: unknown): string[] {
  return problemsOf(changes, scene).map((problem) => problemText(problem));
}

/** Deeply frozen, so that whoever writes to it is caught. */
export function frozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null) {
    Object.freeze(value);
    for (const member of Object.values(value)) frozen(member);
  }
  return value;
}

export function opened(raw: unknown): SceneDocument {
  const { document, problems } = openRaw(raw);
  if (document) return document;
  throw new Error(problems.map((problem) => problemText(problem)).join('\n'));
}
