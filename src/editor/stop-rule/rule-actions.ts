import type { EditorState } from '../store/editor-state.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { lampChosen, markChosen } from '../store/shown-scene.ts';
import { acceptLevels, findLevels, giveUp, wantsOf } from './find-levels.ts';
import { lampsAlight, toggleAlone, toggleMuted, unmuteAll } from './muting.ts';
import { isOf, ruleStore, want } from './rule-state.ts';

/** Something of the stop rule that the list of commands offers. */
export interface StopRuleAction {
  readonly id: string;
  readonly name: string;
  run(store: EditorStore): void;
  enabled(state: EditorState): boolean;
}

/** The chosen lamp, where it is on. */
function lampAlight(state: EditorState): string | undefined {
  const lamp = lampChosen(state);
  return lamp && lamp.on !== false ? lamp.id : undefined;
}

/** Does something with an id that may not be there. */
function withIt<T>(found: T | undefined, run: (found: T) => void): void {
  if (found !== undefined) run(found);
}

export const stopRuleActions: readonly StopRuleAction[] = [
  {
    id: 'rule.leave-out',
    name: 'Leave the chosen lamp out of the readings, or take it in again',
    run: (store) => withIt(lampAlight(store.getState()), (lamp) => toggleMuted(store, lamp)),
    enabled: (state) => lampAlight(state) !== undefined,
  },
  {
    id: 'rule.alone',
    name: 'Look at the chosen lamp alone',
    run: (store) => withIt(lampAlight(store.getState()), (lamp) => toggleAlone(store, lamp)),
    enabled: (state) => lampsAlight(state).length > 1 && lampAlight(state) !== undefined,
  },
  {
    id: 'rule.all-lamps',
    name: 'Count all lamps again',
    run: unmuteAll,
    enabled: ({ muted }) => muted.size > 0,
  },
  {
    id: 'rule.want-zero',
    name: "Want the chosen mark at the camera's zero",
    run: (store) =>
      withIt(markChosen(store.getState()), (mark) => {
        want(mark, 0);
        ruleStore.setState({ tab: 'wanted' });
      }),
    enabled: (state) => markChosen(state) !== undefined,
  },
  {
    id: 'rule.want-nothing',
    name: 'Take away what is wanted at the chosen mark',
    run: (store) => withIt(markChosen(store.getState()), (mark) => want(mark, null)),
    enabled: (state) => ruleStore.getState().wants.has(markChosen(state) ?? ''),
  },
  {
    id: 'rule.find-levels',
    name: 'Find levels for the wanted stops',
    run: (store) => void findLevels(store),
    enabled: (state) => wantsOf(state, ruleStore.getState().wants).length > 0,
  },
  {
    id: 'rule.take-levels',
    name: 'Take the levels that were found',
    run: (store) => void acceptLevels(store),
    enabled: (state) => {
      const { balance, wants } = ruleStore.getState();
      return balance.kind === 'proposed' && isOf(balance.asked, state, wants);
    },
  },
  {
    id: 'rule.leave-levels',
    name: 'Leave the levels as they are',
    run: () => giveUp(),
    enabled: () => ruleStore.getState().balance.kind !== 'none',
  },
];
