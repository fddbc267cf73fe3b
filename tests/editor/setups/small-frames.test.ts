import { describe, expect, it } from 'vitest';
import { createFrameStore } from '../../../src/editor/frame/frame-state.ts';
import { frameKey, sameKey } from '../../../src/editor/setups/frame-key.ts';
import { keepSmallFrames, wantedFrames } from '../../../src/editor/setups/keep-small-frames.ts';
import { setupsStoreOf } from '../../../src/editor/setups/setups-state.ts';
import {
  newSmallFrameDesk,
  type SmallFrame,
  type SmallFrameDesk,
} from '../../../src/editor/setups/small-frame-desk.ts';
import { sumOfFrames } from '../../../src/editor/setups/small-light.ts';
import { beginGesture, edit, endGesture } from '../../../src/editor/store/edits.ts';
import { changesSince } from '../../../src/editor/worker/document-changes.ts';
import { applyCommand } from '../../../src/scene/commands/apply-command.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { demo, demoStore, sceneNamed } from './support.ts';

const beside = new Map();
const keyOf = (document: SceneDocument, setup?: string) => frameKey({ document, beside }, setup, 'a');
const edited = (command: Parameters<typeof applyCommand>[1]) => applyCommand(demo, command).document!;

describe('what a small frame is of', () => {
  it('is the same after edits that throw no light on it', () => {
    for (const command of [
      { do: 'describe', notes: 'other words' },
      { do: 'change', id: '1a', patch: { name: 'Other name' } },
      { do: 'change', id: '1b', patch: { changes: { haze: { visibility_m: 100 } } } },
    ] as const) {
      expect(sameKey(keyOf(demo, '1a'), keyOf(edited(command), '1a'))).toBe(true);
    }
  });

  it('is another after one that does', () => {
    for (const command of [
      { do: 'change', id: 'key', patch: { level: 0.1 } },
      { do: 'change', id: 'a', patch: { iso: 800 } },
      { do: 'change', id: '1a', patch: { changes: { fill: { on: true } } } },
      { do: 'change-section', section: 'haze', patch: { visibility_m: 500 } },
    ] as const) {
      expect(sameKey(keyOf(demo, '1a'), keyOf(edited(command), '1a'))).toBe(false);
    }
  });
});

describe('which small frames are wanted', () => {
  it('are those of what is shown first, and of the lamps that are on before it', () => {
    const store = demoStore();
    store.setState({ setup: '1a' });
    const setups = wantedFrames(store.getState(), { open: true, buildUp: false, allSetups: false }).map(
      ({ setup }) => setup,
    );
    expect(setups).toEqual(['1a', undefined, '1b', '2', '3', '4', '5']);
    const both = wantedFrames(store.getState(), { open: true, buildUp: true, allSetups: false });
    expect(both.slice(0, 3).map(({ light }) => light)).toEqual([
      { kind: 'sky' },
      { kind: 'lamp', id: 'back' },
      { kind: 'all' },
    ]);
    expect(new Set(both.map(({ slot }) => slot)).size).toBe(both.length);
    const none = { open: false, buildUp: false, allSetups: false };
    expect(wantedFrames(store.getState(), none)).toEqual([]);
    const sheet = wantedFrames(store.getState(), { ...none, allSetups: true });
    expect(sheet.map(({ setup }) => setup)).toEqual(setups);
  });
});

const FRAME = { width_px: 1, height_px: 1, rgb: Float32Array.of(1, 2, 3) } as SmallFrame;

describe('the keeper of small frames', () => {
  /** A desk whose frames are done when the test says so. */
  function deskInHand() {
    const asked: (string | undefined)[] = [];
    let finish: (frame: SmallFrame | null) => void = () => {};
    let stops = 0;
    const desk: SmallFrameDesk = {
      draw({ setup }) {
        asked.push(setup);
        return new Promise((done) => {
          finish = done;
        });
      },
      async read({ setup }) {
        asked.push(`readings of ${setup ?? 'the base'}`);
        return null;
      },
      stop() {
        stops++;
        finish(null);
      },
    };
    const done = async () => {
      finish(FRAME);
      await new Promise((next) => setTimeout(next));
    };
    return { desk, asked, done, stops: () => stops };
  }

  const ready = () => {
    const store = demoStore();
    const setups = setupsStoreOf(store);
    // Numbers that failed have no claim on the processor.
    store.setState({ readingFailure: 'none in this test' });
    setups.setState({ open: true });
    return { store, setups, frame: createFrameStore() };
  };

  it('draws one after the other, and each once', async () => {
    const { store, setups, frame } = ready();
    const { desk, asked, done } = deskInHand();
    const stop = keepSmallFrames(store, setups, frame, desk);
    for (let i = 0; i < 7; i++) await done();
    expect(asked).toEqual([undefined, '1a', '1b', '2', '3', '4', '5']);
    expect(setups.getState()).toMatchObject({ drawing: null, failure: null });
    expect(setups.getState().frames.size).toBe(7);
    store.setState({ setup: '2' });
    expect(asked.length).toBe(7);
    stop();
  });

  it('reads every setup for the sheet of all before it draws, and again only when what is read has changed', async () => {
    const { store, setups, frame } = ready();
    // With readings of the night in it, a mark would correct lamps.
    store.setState({ scene: { document: { ...demo, readings: [] }, beside } });
    setups.setState({ open: false, allSetups: true });
    const { desk, asked, done } = deskInHand();
    const stop = keepSmallFrames(store, setups, frame, desk);
    for (let i = 0; i < 7; i++) await done();
    const readings = [undefined, '1a', '1b', '2', '3', '4', '5'].map(
      (setup) => `readings of ${setup ?? 'the base'}`,
    );
    expect(asked).toEqual([...readings, undefined, '1a', '1b', '2', '3', '4', '5']);
    edit(store, { do: 'change', id: 'ada-face', patch: { position_m: [-2, 1.6, 1.2] } });
    await done();
    // A mark throws no light: the frames stay.
    expect(asked.slice(14)).toEqual(readings);
    stop();
  });

  it('leaves off when something moves, and draws the changed scene when that rests', async () => {
    const { store, setups, frame } = ready();
    const { desk, asked, done, stops } = deskInHand();
    const stop = keepSmallFrames(store, setups, frame, desk);
    beginGesture(store, 'drag');
    await done();
    expect(stops()).toBe(1);
    edit(store, { do: 'change', id: 'key', patch: { level: 0.1 } });
    expect(asked.length).toBe(1);
    endGesture(store);
    await done();
    await done();
    expect(asked.slice(0, 3)).toEqual([undefined, undefined, '1a']);
    stop();
  });

  it('waits for the numbers, and while the frame is held', async () => {
    const { store, setups, frame } = ready();
    store.setState({ readingFailure: null });
    const { desk, asked, done } = deskInHand();
    const stop = keepSmallFrames(store, setups, frame, desk);
    expect(asked).toEqual([]);
    frame.setState({ paused: true });
    store.setState({ readingFailure: 'none in this test' });
    await done();
    expect(asked).toEqual([]);
    frame.setState({ paused: false });
    expect(asked).toEqual([undefined]);
    stop();
  });
});

describe('small frames of a card and two lamps', () => {
  it('add up: the sky and each lamp alone are all light together', async () => {
    const document = withSecondLamp(sceneNamed('lamp-and-card.json'));
    const desk = newSmallFrameDesk({ width_px: 24, samples: 64, seed: 3 });
    const draw = (light: Parameters<SmallFrameDesk['draw']>[0]['light']) =>
      desk.draw(
        { changes: changesSince(null, document), beside, setup: undefined, camera: 'a', light },
        () => {},
      );
    const meanOf = ({ rgb }: SmallFrame) => rgb.reduce((sum, x) => sum + x, 0) / rgb.length;
    const all = await draw({ kind: 'all' });
    const parts = [
      await draw({ kind: 'sky' }),
      await draw({ kind: 'lamp', id: 'lamp' }),
      await draw({ kind: 'lamp', id: 'second' }),
    ].map((frame) => frame!);
    // derived: light adds; the mean over 384 pixels of 64 samples is good to a few per cent.
    expect(meanOf(sumOfFrames(parts)!) / meanOf(all!)).toBeCloseTo(1, 1);
    expect(meanOf(parts[1]!)).toBeGreaterThan(0.2 * meanOf(all!));
  }, 60_000);
});

function withSecondLamp(document: SceneDocument): SceneDocument {
  const [lamp] = document.lamps!;
  return { ...document, lamps: [lamp!, { ...lamp!, id: 'second', position_m: [1, 1.5, 3] }] };
}
