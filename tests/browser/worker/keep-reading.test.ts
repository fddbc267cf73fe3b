import { describe, expect, it } from 'vitest';
import type { Scene } from '../../../src/editor/store/editor-state.ts';
import { createEditorStore } from '../../../src/editor/store/editor-store.ts';
import { beginGesture, edit, endGesture, undo } from '../../../src/editor/store/edits.ts';
import { readingFreshness } from '../../../src/editor/store/shown-scene.ts';
import { withChanges } from '../../../src/editor/worker/document-changes.ts';
import { keepReading } from '../../../src/editor/worker/keep-reading.ts';
import type { Answer, Question, ReadingDesk } from '../../../src/editor/worker/reading-desk.ts';
import type { MeterReport } from '../../../src/scene/meter/meter-scene.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';

const SCENE: Scene = {
  document: {
    keyfall: 1,
    title: 'Small',
    lamps: [{ id: 'key', head: 'led-head-spot', position_m: [0, 2, 0], aim_m: [0, 0, 3], level: 1 }],
    cameras: [
      {
        id: 'a',
        position_m: [0, 1, 5],
        look_m: [0, 1, 0],
        sensor_mm: [36, 24],
        focal_mm: 35,
        fNumber: 4,
        shutter_s: 0.02,
        iso: 800,
      },
    ],
  },
  beside: new Map(),
};

interface Asked {
  readonly question: Question;
  readonly level: number | undefined;
  readonly onReport: ((report: MeterReport) => void) | undefined;
  readonly answer: (answer: Answer | null) => void;
}

/** A desk whose answers are given by hand. */
function deskByHand() {
  const asked: Asked[] = [];
  let document: SceneDocument | null = null;
  let leftOff = 0;
  const desk: ReadingDesk = {
    open: () => Promise.reject(new Error('not in this test')),
    read(question, onReport) {
      document = withChanges(document, question.changes);
      const level = document.lamps?.[0]?.level;
      return new Promise((answer) => asked.push({ question, level, onReport, answer }));
    },
    leaveOff: () => {
      leftOff++;
    },
  };
  return { desk, asked, leftOff: () => leftOff };
}

/** Enough of a report to be told from another. */
function report(title: string): MeterReport {
  return { title } as MeterReport;
}

function answered(title: string): Answer {
  return { report: report(title), problems: [], corrections: null, looks: null, stage: null, grounds: null };
}

function atWork(scene = SCENE) {
  const store = createEditorStore();
  store.setState({ scene });
  const quick = deskByHand();
  const thorough = deskByHand();
  keepReading(store, quick.desk, thorough.desk);
  const shown = () => [store.getState().reading?.report?.title, readingFreshness(store.getState())];
  const dim = (level: number) => edit(store, { do: 'change', id: 'key', patch: { level } });
  return { store, quick, thorough, shown, dim };
}

const heard = () => new Promise((done) => setTimeout(done));

describe('reading while the scene is edited', () => {
  it('shows straight light until all light is known, then that, and nothing that comes in late', async () => {
    const { quick, thorough, shown } = atWork();
    quick.asked[0]!.answer(answered('straight'));
    await heard();
    expect(shown()).toEqual(['straight', 'straight']);
    thorough.asked[0]!.onReport!(report('so far'));
    expect(shown()).toEqual(['so far', 'settling']);
    thorough.asked[0]!.answer(answered('all'));
    await heard();
    expect(shown()).toEqual(['all', 'fresh']);
    thorough.asked[0]!.onReport!(report('late'));
    expect(shown()).toEqual(['all', 'fresh']);
  });

  it('never queues more than the latest wish', async () => {
    const { quick, dim } = atWork();
    for (const level of [0.9, 0.8, 0.7, 0.6]) dim(level);
    expect(quick.asked.length).toBe(1);
    quick.asked[0]!.answer(answered('first'));
    await heard();
    expect(quick.asked.map(({ level }) => level)).toEqual([1, 0.6]);
    quick.asked[1]!.answer(answered('last'));
    await heard();
    expect(quick.asked.length).toBe(2);
  });

  it('leaves thorough readings off while something moves, and starts one when it comes to rest', async () => {
    const { store, quick, thorough, shown, dim } = atWork();
    quick.asked[0]!.answer(answered('straight'));
    await heard();
    thorough.asked[0]!.answer(answered('all'));
    await heard();
    const before = thorough.leftOff();
    beginGesture(store, 'drag');
    dim(0.5);
    expect(thorough.leftOff()).toBeGreaterThan(before);
    expect(shown()).toEqual(['all', 'stale']);
    for (const asked of quick.asked.slice(1)) asked.answer(answered('moving'));
    await heard();
    for (const asked of quick.asked.slice(1)) asked.answer(answered('moving'));
    await heard();
    expect(shown()).toEqual(['moving', 'moving']);
    expect(thorough.asked.length).toBe(1);
    endGesture(store);
    await heard();
    expect(thorough.asked.map(({ level }) => level)).toEqual([1, 0.5]);
    thorough.asked[1]!.answer(answered('at rest'));
    await heard();
    expect(shown()).toEqual(['at rest', 'fresh']);
  });

  it('hears the night’s readings in a drag as it did before, although they come to remember where it began', async () => {
    const mark = { id: 'face', position_m: [0, 1, 3] as [number, number, number] };
    const readings = [{ id: 'r', mark: 'face', lamps: ['key'], illuminance_lx: 100 }];
    const { store, quick, thorough, dim } = atWork({
      ...SCENE,
      document: { ...SCENE.document, marks: [mark], readings },
    });
    const corrections = { lamps: [] } as unknown as NonNullable<Answer['corrections']>;
    // Until they were heard once the plan stands uncorrected: the first numbers do not wait for them, nor for all light.
    expect(quick.asked[0]!.question.corrections).toBeNull();
    expect(thorough.asked.length).toBe(0);
    quick.asked[0]!.answer(answered('straight'));
    await heard();
    thorough.asked[0]!.answer({ ...answered('all'), corrections });
    await heard();
    beginGesture(store, 'drag');
    dim(0.5);
    await heard();
    expect(store.getState().scene!.document.readings![0]!.taken).toEqual([{ lamp: 'key', level: 1 }]);
    expect(quick.asked[1]!.question.corrections).toBe(corrections);
    edit(store, { do: 'change', id: 'r', patch: { illuminance_lx: 200 } });
    quick.asked[1]!.answer(answered('moving'));
    await heard();
    expect(quick.asked[2]!.question.corrections).toBeUndefined();
  });

  it('does not show an answer to a question that is no longer asked', async () => {
    const { quick, thorough, shown, dim } = atWork();
    quick.asked[0]!.answer(answered('straight'));
    await heard();
    dim(0.5);
    thorough.asked[0]!.answer(answered('of before'));
    await heard();
    expect(shown()).toEqual(['straight', 'stale']);
    quick.asked[1]!.answer(answered('straight now'));
    await heard();
    thorough.asked[1]!.answer(answered('of now'));
    await heard();
    expect(shown()).toEqual(['of now', 'fresh']);
  });

  it('answers an edit without a gesture, and its undo, by straight light first and then by all', async () => {
    const { store, quick, thorough, shown, dim } = atWork();
    quick.asked[0]!.answer(answered('straight'));
    await heard();
    thorough.asked[0]!.answer(answered('all'));
    await heard();
    const steps = [
      { level: 0.5, take: () => dim(0.5) },
      { level: 1, take: () => undo(store) },
    ];
    for (const [i, { level, take }] of steps.entries()) {
      take();
      expect(shown()[1]).toBe('stale');
      // All light is not begun with before straight light is known: it would only be slower for it.
      expect(thorough.asked.length).toBe(i + 1);
      quick.asked[i + 1]!.answer(answered(`straight at ${level}`));
      await heard();
      expect(shown()).toEqual([`straight at ${level}`, 'straight']);
      expect([quick, thorough].map(({ asked }) => asked[i + 1]!.level)).toEqual([level, level]);
      thorough.asked[i + 1]!.answer(answered(`all at ${level}`));
      await heard();
      expect(shown()).toEqual([`all at ${level}`, 'fresh']);
    }
  });

  it('does not fall back to straight light where a gesture changes nothing', async () => {
    const { store, quick, thorough, shown } = atWork();
    quick.asked[0]!.answer(answered('straight'));
    await heard();
    thorough.asked[0]!.answer(answered('all'));
    await heard();
    beginGesture(store, 'drag');
    await heard();
    expect(shown()).toEqual(['all', 'fresh']);
    endGesture(store);
    await heard();
    expect(quick.asked.length).toBe(1);
    expect(shown()).toEqual(['all', 'fresh']);
  });

  it('sends only what an edit has changed', async () => {
    const { quick, dim } = atWork();
    quick.asked[0]!.answer(answered('straight'));
    await heard();
    dim(0.25);
    const { changes, beside } = quick.asked[1]!.question;
    expect(Object.keys(changes.set)).toEqual(['lamps']);
    expect([...changes.kept].sort()).toEqual(['cameras', 'keyfall', 'title']);
    expect(beside).toBeUndefined();
  });
});

describe('history', () => {
  it('takes a gesture as one step, whatever it changed on the way', () => {
    const { store, dim } = atWork();
    beginGesture(store, 'drag');
    for (const level of [0.9, 0.5, 0.2]) dim(level);
    endGesture(store);
    dim(0.1);
    const past = store.temporal.getState().pastStates.map(({ scene }) => scene?.document.lamps?.[0]?.level);
    expect(past.slice(-2)).toEqual([1, 0.2]);
    store.temporal.getState().undo(2);
    expect(store.getState().scene).toBe(SCENE);
  });
});
