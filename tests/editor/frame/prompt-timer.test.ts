import { afterEach, expect, it } from 'vitest';
import { newPromptTimer, type PromptTimer } from '../../../src/editor/frame/prompt-timer.ts';

let timer: PromptTimer | undefined;
afterEach(() => timer?.dispose());

const aWhile = () => new Promise((done) => setTimeout(done, 30));

it('runs once however often it is started, and again when started again, from within too', async () => {
  let runs = 0;
  timer = newPromptTimer(() => {
    runs++;
    if (runs < 3) timer!.start();
  });
  timer.start();
  timer.start();
  expect(runs).toBe(0);
  await aWhile();
  expect(runs).toBe(3);
});

it('runs nothing once it is disposed of', async () => {
  let runs = 0;
  timer = newPromptTimer(() => runs++);
  timer.start();
  timer.dispose();
  timer.start();
  await aWhile();
  expect(runs).toBe(0);
});
