import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import type { FrameAnswer } from '../../../src/editor/frame/frame-desk.ts';
import { createFrameStore } from '../../../src/editor/frame/frame-state.ts';
import { keepFrame } from '../../../src/editor/frame/keep-frame.ts';
import { createEditorStore } from '../../../src/editor/store/editor-store.ts';
import { edit } from '../../../src/editor/store/edits.ts';

const ANSWER: FrameAnswer = { camera: null, scene: null, lamps: [], things: [], limits: [], problems: [] };

it('asks for nothing while the frame is held, says that the scene has gone on, and catches up', async () => {
  const store = createEditorStore();
  const document = JSON.parse(readFileSync('scenes/lamp-and-card.json', 'utf8'));
  store.setState({ scene: { document, beside: new Map() } });
  const frame = createFrameStore();
  let asked = 0;
  const desk = {
    look: async () => {
      asked++;
      return ANSWER;
    },
  };
  const card = { card: () => true, processor: () => false };
  const { stop } = keepFrame(store, frame, desk, () => {}, card);
  const settled = () => new Promise((done) => setTimeout(done));
  await settled();
  expect(asked).toBe(1);
  frame.setState({ paused: true });
  edit(store, { do: 'describe', title: 'Another' });
  await settled();
  expect(asked).toBe(1);
  expect(frame.getState().behind).toBe(true);
  frame.setState({ paused: false });
  await settled();
  expect(asked).toBe(2);
  expect(frame.getState().behind).toBe(false);
  frame.setState({ paused: true });
  frame.setState({ paused: false });
  await settled();
  expect(asked).toBe(2);
  stop();
});

it('hands on nothing as soon as another scene is opened, and nothing late of the one before', async () => {
  const store = createEditorStore();
  const document = JSON.parse(readFileSync('scenes/lamp-and-card.json', 'utf8'));
  const scene = { document, beside: new Map() };
  store.setState({ scene, openings: 1 });
  const answer = { ...ANSWER, camera: {} } as FrameAnswer;
  const answers: ((answer: FrameAnswer) => void)[] = [];
  const desk = { look: () => new Promise<FrameAnswer>((done) => answers.push(done)) };
  const taken: string[] = [];
  const { stop } = keepFrame(
    store,
    createFrameStore(),
    desk,
    (subject) => taken.push(subject ? 'a picture' : 'nothing'),
    { card: () => false, processor: () => true },
  );
  const settled = () => new Promise((done) => setTimeout(done));
  const open = (openings: number) => store.setState({ scene: { ...scene }, openings });
  await settled();
  answers.shift()!(answer);
  await settled();
  expect(taken).toEqual(['a picture']);
  open(2);
  await settled();
  expect(taken).toEqual(['a picture', 'nothing']);
  // Still asked of the second when the third is opened.
  open(3);
  answers.shift()!(answer);
  await settled();
  expect(taken).toEqual(['a picture', 'nothing']);
  answers.shift()!(answer);
  await settled();
  expect(taken).toEqual(['a picture', 'nothing', 'a picture']);
  stop();
});
