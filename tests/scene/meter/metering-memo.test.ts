import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { mixed32 } from '../../../src/core/math/kronecker.ts';
import { applyCommand } from '../../../src/scene/commands/apply-command.ts';
import { compileScene, newCompileMemo } from '../../../src/scene/compile/compile-scene.ts';
import { openScene } from '../../../src/scene/file/open-scene.ts';
import { LIBRARY } from '../../../src/scene/library/library.ts';
import {
  type MeteringMemo,
  type MeterRequest,
  meterScene,
  startMeteringScene,
} from '../../../src/scene/meter/meter-scene.ts';
import { correctedModel } from '../../../src/scene/readings/corrected-model.ts';
import { correctionsFrom } from '../../../src/scene/readings/corrections.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import type { Mark } from '../../../src/scene/schema/mark.ts';

const SEED = 20_261_128;
const EDITS = 100;
const FILES = { photometry: new Map(), meshes: new Map() };

const quay = openScene(readFileSync('scenes/night-quay.json', 'utf8')).document!;

/** Seeded numbers, uniform in 0..1. */
function randomFrom(seed: number): () => number {
  let n = seed;
  return () => mixed32(n++) / 2 ** 32;
}

type Edit = (document: SceneDocument, random: () => number) => SceneDocument;

function pick<T>(list: readonly T[], random: () => number): number {
  return Math.floor(random() * list.length);
}

type Place = [number, number, number];

function near(place: Readonly<Place>, random: () => number, reach_m = 0.5): Place {
  const within = () => reach_m * (2 * random() - 1);
  return [place[0] + within(), place[1] + 0.2 * random(), place[2] + within()];
}

/** One of a list, changed. */
function editOf<K extends 'lamps' | 'marks' | 'solids'>(
  list: K,
  change: (thing: NonNullable<SceneDocument[K]>[number], random: () => number) => object,
): Edit {
  return (document, random) => {
    const things = document[list] as readonly NonNullable<SceneDocument[K]>[number][];
    const i = pick(things, random);
    return { ...document, [list]: things.with(i, { ...things[i]!, ...change(things[i]!, random) }) };
  };
}

function facesWhatIsThere({ facing }: Mark, { lamps }: SceneDocument): boolean {
  return !String(facing).startsWith('lamp:') || lamps!.some(({ id }) => facing === `lamp:${id}`);
}

/** What a person does to a scene; most often, a lamp is moved. */
const moveLamp = editOf('lamps', ({ position_m }, random) => ({ position_m: near(position_m, random) }));
const EDIT_KINDS: readonly Edit[] = [
  moveLamp,
  moveLamp,
  // So far that haze reaches farther with it.
  editOf('lamps', ({ position_m }, random) => ({ position_m: near(position_m, random, 30) })),
  editOf('lamps', ({ aim_m }, random) => ({ aim_m: near(aim_m, random) })),
  editOf('lamps', (_, random) => ({ level: random() })),
  editOf('lamps', ({ on }) => ({ on: on === false })),
  editOf('lamps', (_, random) => ({
    filters: [['half-cto'], ['half-ctb', 'double-net'], []][pick([0, 1, 2], random)],
  })),
  editOf('marks', ({ position_m }, random) => ({ position_m: near(position_m, random) })),
  editOf('marks', ({ receptor }) => ({ receptor: receptor === 'flat' ? 'dome' : 'flat' })),
  // Into the light of a mark.
  (document, random) => {
    const { position_m } = document.marks![pick(document.marks!, random)]!;
    const put = editOf('solids', () => ({ position_m: near(position_m, random) }));
    return put(document, random);
  },
  (document, random) => {
    const { id } = document.lamps![pick(document.lamps!, random)]!;
    return applyCommand(document, { do: 'remove', id }).document!;
  },
  (document, random) => ({
    ...document,
    lamps: document.lamps!.toSpliced(pick(document.lamps!, random), 0, {
      ...quay.lamps![0]!,
      id: `lamp-${mixed32(1e9 * random()) >>> 0}`,
    }),
  }),
  (document, random) => ({ ...document, marks: document.marks!.toSpliced(pick(document.marks!, random), 1) }),
  (document) => ({ ...document, marks: quay.marks!.filter((mark) => facesWhatIsThere(mark, document)) }),
  (document, random) => ({ ...document, haze: { ...quay.haze!, visibility_m: 200 + 2000 * random() } }),
  ({ haze, ...document }) => document,
  (document, random) => ({
    ...document,
    haze: {
      ...quay.haze!,
      regions: [{ position_m: near([0, 1, 2], random), size_m: [6, 3, 6], rotation_deg: [0, 0, 0] }],
    },
  }),
  (document, random) => ({ ...document, site: { ...quay.site!, sky: { illuminance_lx: random() } } }),
  (document, random) => ({
    ...document,
    cameras: document.cameras!.toSpliced(0, 1, {
      ...document.cameras![0]!,
      position_m: near(document.cameras![0]!.position_m, random),
    }),
  }),
];

const REQUESTS: readonly MeterRequest[] = [
  { light: 'direct', error_stops: 0.1 },
  { light: 'direct', error_stops: 0.1 },
  { light: 'direct', error_stops: 0.02 },
  { light: 'direct', error_stops: 0.1, camera: 'b' },
];

function reportAfresh(document: SceneDocument, request: MeterRequest) {
  const { corrections = null } = request;
  const model = correctedModel(compileScene(document, FILES), document, corrections);
  return meterScene(document, model, request);
}

describe(`readings that take over what an edit has left as it was (${EDITS} edits, seed ${SEED})`, () => {
  const readings = correctionsFrom(quay, FILES);

  it('are those that are read afresh, bit for bit, corrected by the night’s readings or not', () => {
    const random = randomFrom(mixed32(SEED));
    const compiled = newCompileMemo();
    const metered: MeteringMemo = [];
    let document = quay;
    for (let i = 0; i < EDITS; i++) {
      const edit = EDIT_KINDS[pick(EDIT_KINDS, random)]!;
      const next = edit(document, random);
      if (!next.lamps!.length || !next.marks!.length) continue;
      // What comes to a worker are copies of what was edited.
      document = random() < 0.5 ? next : { ...next, lamps: structuredClone(next.lamps) };
      const corrections = random() < 0.5 ? readings : null;
      const request = { ...REQUESTS[pick(REQUESTS, random)]!, corrections };
      const model = compileScene(document, FILES, LIBRARY, compiled);
      const asMetered = correctedModel(model, document, corrections);
      const report = startMeteringScene(document, asMetered, request, metered).report();
      expect(report).toStrictEqual(reportAfresh(document, request));
    }
  });

  it('look anew at the sky where haze reaches farther with a lamp that is carried away', () => {
    const compiled = newCompileMemo();
    const metered: MeteringMemo = [];
    const [lamp, ...others] = quay.lamps!;
    const away = { ...lamp!, position_m: [400, 300, 0] as Place };
    for (const lamps of [quay.lamps!, [away, ...others]]) {
      const document = { ...quay, lamps };
      const model = compileScene(document, FILES, LIBRARY, compiled);
      const report = startMeteringScene(document, model, {}, metered).report();
      expect(report).toStrictEqual(reportAfresh(document, {}));
    }
  });

  it('look anew at nothing but the lamp that was moved', () => {
    const compiled = newCompileMemo();
    const metered: MeteringMemo = [];
    const read = (document: SceneDocument) => {
      startMeteringScene(document, compileScene(document, FILES, LIBRARY, compiled), {}, metered);
      return metered.map(({ lamps }) => lamps);
    };
    const before = read(quay);
    const after = read(moveLamp({ ...quay, lamps: structuredClone(quay.lamps) }, () => 0));
    for (const [i, lamps] of after.entries()) {
      const known = lamps.map((lamp, l) => lamp === before[i]![l]);
      // A mark that faces the lamp is another meter now.
      const facesIt = quay.marks![i]!.facing === `lamp:${quay.lamps![0]!.id}`;
      expect(known).toEqual(quay.lamps!.map((_, l) => l !== 0 && !facesIt));
    }
  });
});
