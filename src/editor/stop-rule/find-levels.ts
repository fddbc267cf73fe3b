import { type Remote, wrap } from 'comlink';
import type { Want } from '../../scene/balance/wants.ts';
import type { EditorState } from '../store/editor-state.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { edit } from '../store/edits.ts';
import { cameraShown, documentShown, setupShown } from '../store/shown-scene.ts';
import type { BalanceAnswer, BalanceQuestion } from './balance-desk.ts';
import { levelCommands } from './level-commands.ts';
import { type AskedOf, isOf, ruleStore } from './rule-state.ts';

interface Desk {
  balance(question: BalanceQuestion): Promise<BalanceAnswer>;
}

let worker: Worker | null = null;

/** Those wants whose marks the scene (still) has, in its order. */
export function wantsOf(state: EditorState, wants: ReadonlyMap<string, number>): Want[] {
  return (state.scene?.document.marks ?? []).flatMap(({ id }) => {
    const stops = wants.get(id);
    return stops === undefined ? [] : [{ mark: id, lamp: null, stops }];
  });
}

/** Asks a worker of its own for levels that bring the marks to what is wanted. A question under way is given up. */
export async function findLevels(store: EditorStore): Promise<void> {
  const state = store.getState();
  const { scene } = state;
  const { wants } = ruleStore.getState();
  const wanted = wantsOf(state, wants);
  if (!scene || wanted.length === 0) return;
  giveUp();
  const asked: AskedOf = { scene, setup: setupShown(state), camera: cameraShown(state)?.id, wants };
  const mine = new Worker(new URL('./balance-worker.ts', import.meta.url), { type: 'module' });
  worker = mine;
  ruleStore.setState({ tab: 'wanted', balance: { kind: 'working', since_ms: performance.now() } });
  const desk: Remote<Desk> = wrap<Desk>(mine);
  // A worker that dies never answers.
  const death = new Promise<never>((_, reject) => {
    mine.addEventListener('error', ({ message }) =>
      reject(new Error(message || 'the worker could not be started')),
    );
  });
  try {
    const { setup, camera } = asked;
    const { document, beside } = scene;
    const question = { document, beside, setup, camera, wants: wanted };
    const { report, problems } = await Promise.race([desk.balance(question), death]);
    if (worker !== mine) return;
    ruleStore.setState({
      balance: report ? { kind: 'proposed', asked, report } : { kind: 'failed', message: null, problems },
    });
  } catch (error) {
    if (worker !== mine) return;
    const { message } = error as Error;
    ruleStore.setState({ balance: { kind: 'failed', message, problems: [] } });
  } finally {
    if (worker === mine) worker = null;
    mine.terminate();
  }
}

/** Leaves off what is being worked out, or puts a proposal away. */
export function giveUp(): void {
  worker?.terminate();
  worker = null;
  ruleStore.setState({ balance: { kind: 'none' } });
}

/** Takes the proposed levels as one step. False where they are of another scene by now, or the edit is refused. */
export function acceptLevels(store: EditorStore): boolean {
  const { balance, wants } = ruleStore.getState();
  const state = store.getState();
  const shown = documentShown(state);
  if (balance.kind !== 'proposed' || !shown || !isOf(balance.asked, state, wants)) return false;
  const commands = levelCommands(shown, balance.report.lamps);
  if (commands.length > 0 && !edit(store, commands, 'Levels for wanted stops')) return false;
  ruleStore.setState({ balance: { kind: 'none' } });
  return true;
}
