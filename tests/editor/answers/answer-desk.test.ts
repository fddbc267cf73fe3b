import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { newAnswerDesk } from '../../../src/editor/worker/answer-desk.ts';
import type { AnswerKind, AnswerOf, AskedOf } from '../../../src/editor/worker/answer-kinds.ts';
import type { AnswerStep } from '../../../src/editor/worker/answer-steps.ts';
import { changesSince } from '../../../src/editor/worker/document-changes.ts';
import { openScene } from '../../../src/scene/file/open-scene.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { keyfall, SCENES, temporaryFolder } from '../../support/command-line.ts';
import { edited, smallScene } from '../../support/scenes.ts';

const DEMO = join(SCENES, 'night-quay.json');
const demo = openScene(readFileSync(DEMO, 'utf8')).document!;
const folder = temporaryFolder();
const LONG_ms = 180_000;

async function answerOf<K extends AnswerKind>(
  kind: K,
  asked: AskedOf<K>,
  document: SceneDocument = demo,
  setup?: string,
): Promise<AnswerOf<K>> {
  const changes = changesSince(null, document);
  const answered = await newAnswerDesk().answer({ kind, asked, setup, camera: undefined, changes });
  expect(answered?.problems).toEqual([]);
  return answered!.answer!;
}

async function commandLine(...args: string[]) {
  return JSON.parse((await keyfall(...args, '--json')).out);
}

/** As it comes out of JSON: −∞ is null there, and what is undefined is left out. */
function asJson(value: unknown) {
  return JSON.parse(JSON.stringify(value));
}

/** The page and the command line are two ways to one answer. */
describe('answers on the page are those of the command line', () => {
  it('glints and their cures', { timeout: LONG_ms }, async () => {
    const { report, cures } = await answerOf('glints', { cures: true });
    const { glints, ...rest } = await commandLine('glints', DEMO);
    expect(asJson({ ...report, glints: undefined })).toEqual(rest);
    expect(
      asJson(
        report.glints.map((glint) => {
          const pair = cures!.find((c) => glint.burns && c.lamp === glint.lamp && c.solid === glint.solid);
          return { ...glint, cures: pair?.cures ?? [], partialCures: pair?.partial ?? [] };
        }),
      ),
    ).toEqual(glints);
  });

  it('separation, figure by figure, with conversions', { timeout: LONG_ms }, async () => {
    const { report, conversions, outlines } = await answerOf('separation', {});
    const { figures, ...rest } = await commandLine('separation', DEMO, '--monochrome-table');
    expect(asJson({ ...report, figures: undefined })).toEqual(rest);
    expect(
      asJson(
        report.figures.map(({ outline, ...figure }) => ({
          ...figure,
          ...outline,
          conversions: conversions.get(figure.id),
        })),
      ),
    ).toEqual(figures);
    for (const [i, { pieces }] of outlines.entries()) {
      const { samples } = report.figures[i]!.outline!;
      expect(pieces.map(({ stops }) => stops)).toEqual(samples.map(({ stops }) => stops));
      // A piece runs through the place that its sample names: half its length from either end, so within it.
      for (const [k, { line }] of pieces.entries()) {
        const [u, v] = samples[k]!.pixel;
        const [us, vs] = [line.map(([x]) => x), line.map(([, y]) => y)];
        expect(u).toBeGreaterThanOrEqual(Math.min(...us) - 1e-9);
        expect(u).toBeLessThanOrEqual(Math.max(...us) + 1e-9);
        expect(v).toBeGreaterThanOrEqual(Math.min(...vs) - 1e-9);
        expect(v).toBeLessThanOrEqual(Math.max(...vs) + 1e-9);
      }
    }
  });

  it('other clothes', { timeout: LONG_ms }, async () => {
    const one = edited(smallScene(), {
      figures: [
        {
          id: 'ada',
          position_m: [0, 0, 1],
          heading_deg: 0,
          pose: 'standing',
          height_m: 1.7,
          skin: 'skin-mid',
          upper: 'wool-dark',
          lower: 'wool-dark',
        },
      ],
      'cameras.0.position_m': [0, 1.2, 8],
    }) as SceneDocument;
    const found = await answerOf('wardrobe', { figure: 'ada' }, one);
    const file = folder.file('one.json', JSON.stringify(one));
    const { figures } = await commandLine('separation', file, '--figure', 'ada', '--wardrobe');
    expect(asJson(found!.rows)).toEqual(figures[0].wardrobe);
    expect(found!.rows.length).toBeGreaterThan(5);
  });

  it('power, for other hours too', async () => {
    const { warnings, cautions, ...printed } = await commandLine('power', DEMO, '--hours', '9');
    expect(asJson(await answerOf('power', { hours: 9 }))).toEqual(printed);
    expect(printed.request.hours).toBe(9);
  });

  it('lens and shutter, in a setup', async () => {
    const printed = await commandLine('lens', DEMO, '--fps', '25', '--setup', '3');
    expect(asJson(await answerOf('lens', { rate_fps: 25 }, demo, '3'))).toEqual(printed);
  });

  it('sun and moon', async () => {
    const { report, curve } = await answerOf('night', { under_stops: 5 });
    expect(asJson(report)).toEqual(await commandLine('night', DEMO, '--under', '5'));
    // The curve ends where the night does, and at the full hours goes through the report's own altitudes.
    const sinceNoon_h = (iso: string) => (Date.parse(iso) - Date.parse(report.fromNoon)) / 3.6e6;
    expect(curve.at(-1)!.sinceNoon_h).toBeCloseTo(sinceNoon_h(report.toNoon), 2);
    const { at, sun } = report.hours[5]!;
    const after = curve.findIndex((point) => point.sinceNoon_h >= sinceNoon_h(at));
    const [low, high] = [curve[after - 1]!.sun_deg, curve[after]!.sun_deg].sort((a, b) => a - b);
    expect(sun.altitude_deg).toBeGreaterThanOrEqual(low! - 0.1);
    expect(sun.altitude_deg).toBeLessThanOrEqual(high! + 0.1);
  });

  it('a walk', { timeout: LONG_ms }, async () => {
    expect(asJson(await answerOf('walk', {}))).toEqual(await commandLine('walk', DEMO));
  });

  it('stands in another wind', async () => {
    const { warnings, cautions, ...printed } = await commandLine('rigging', DEMO, '--wind', '12');
    expect(asJson(await answerOf('stands', { wind_m_s: 12 }))).toEqual(printed);
  });

  it('the readings of the night, of the base whatever setup is shown', { timeout: LONG_ms }, async () => {
    expect(asJson(await answerOf('readings', {}))).toEqual(await commandLine('readings', DEMO));
  });
});

describe('the answer desk', () => {
  const ask = { setup: undefined, camera: undefined, changes: changesSince(null, demo) };

  it('shows glints before their cures, and leaves off between two steps', { timeout: LONG_ms }, async () => {
    const desk = newAnswerDesk();
    const steps: AnswerStep<'glints'>[] = [];
    const answered = await desk.answer({ kind: 'glints', asked: { cures: true }, ...ask }, (step) => {
      steps.push(step);
      if (steps.length === 3) desk.leaveOff();
    });
    expect(answered).toBeNull();
    expect(steps).toHaveLength(3);
    expect(steps[0]!.soFar!.report.glints.length).toBeGreaterThan(0);
    expect(steps[0]!.soFar!.cures).toBeNull();
    const shares = steps.map(({ share }) => share);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    expect(shares.at(-1)).toBeLessThanOrEqual(1);
  });

  it('says what a scene lacks, with the place in it', async () => {
    const desk = newAnswerDesk();
    const bare = { keyfall: 1, title: 'Bare' } as const;
    const answered = await desk.answer({
      ...ask,
      kind: 'lens',
      asked: {},
      changes: changesSince(null, bare),
    });
    expect(answered!.answer).toBeUndefined();
    expect(answered!.problems.map(({ path }) => path)).toEqual(['cameras']);
  });

  it('asks for a file that is missing', async () => {
    const mesh = edited(smallScene(), {
      'solids.0': {
        id: 'rock',
        shape: 'mesh',
        file: 'rock.glb',
        position_m: [0, 0, 0],
        material: 'grey-card',
      },
    }) as SceneDocument;
    const answered = await newAnswerDesk().answer({
      ...ask,
      kind: 'lens',
      asked: {},
      changes: changesSince(null, mesh),
    });
    expect(answered!.problems).toHaveLength(1);
    expect(answered!.problems[0]!.found).toContain('rock.glb');
  });
});
