import { describe, expect, it } from 'vitest';
import {
  holdOther,
  keepBefore,
  letOtherGo,
  otherSetup,
  swapWithOther,
} from '../../../src/editor/setups/hold-other.ts';
import { setupActions } from '../../../src/editor/setups/setup-actions.ts';
import {
  addSetup,
  moveSetup,
  placeSetup,
  removeSetup,
  renameSetup,
  setupNamed,
  setupsOf,
  showSetup,
} from '../../../src/editor/setups/setup-edits.ts';
import { setupsStoreOf } from '../../../src/editor/setups/setups-state.ts';
import { undo } from '../../../src/editor/store/edits.ts';
import { demoStore } from './support.ts';

const order = (store: ReturnType<typeof demoStore>) => setupsOf(store.getState()).map(({ id }) => id);
const DEMO_ORDER = ['1a', '1b', '2', '3', '4', '5'];

describe('the setups of a scene', () => {
  it('gain one with the changes of what is shown, right after it; undo takes it away', () => {
    const store = demoStore();
    showSetup(store, '1b');
    expect(addSetup(store)).toBe(true);
    const shown = store.getState().setup!;
    expect(order(store)).toEqual(['1a', '1b', shown, '2', '3', '4', '5']);
    expect(setupNamed(store.getState(), shown)?.changes).toEqual({ haze: { visibility_m: 300 } });
    undo(store);
    expect(order(store)).toEqual(DEMO_ORDER);
  });

  it('change their order, each in one step, and stay within it', () => {
    const store = demoStore();
    expect(moveSetup(store, '1a', -1)).toBe(false);
    expect(moveSetup(store, '1b', -1)).toBe(true);
    expect(placeSetup(store, '2', 99)).toBe(true);
    expect(order(store)).toEqual(['1b', '1a', '3', '4', '5', '2']);
    undo(store);
    undo(store);
    expect(order(store)).toEqual(DEMO_ORDER);
  });

  it('take a name, and do without one', () => {
    const store = demoStore();
    expect(renameSetup(store, '2', '  Colder  ')).toBe(true);
    expect(setupNamed(store.getState(), '2')?.name).toBe('Colder');
    expect(renameSetup(store, '2', '')).toBe(true);
    expect(setupNamed(store.getState(), '2')).not.toHaveProperty('name');
    expect(renameSetup(store, '2', 'x'.repeat(201))).toBe(false);
    expect(store.getState().refusedEdit).toBeTruthy();
  });

  it('go, and the one before is shown', () => {
    const store = demoStore();
    showSetup(store, '1b');
    expect(removeSetup(store, '1b')).toBe(true);
    expect(store.getState().setup).toBe('1a');
    expect(removeSetup(store, '1a')).toBe(true);
    expect(store.getState().setup).toBeUndefined();
    expect(removeSetup(store, 'gone')).toBe(false);
  });

  it('are gone through by commands that know where the ends are', () => {
    const store = demoStore();
    const action = (id: string) => setupActions.find((one) => one.id === id)!;
    action('setups.next').run(store);
    action('setups.next').run(store);
    expect(store.getState().setup).toBe('1b');
    action('setups.base').run(store);
    expect(action('setups.previous').enabled(store.getState())).toBe(false);
    expect(store.getState().setup).toBeUndefined();
  });
});

describe('the other setup', () => {
  it('is the base at first, then what was shown before; of the base, the first setup', () => {
    const store = demoStore();
    const stop = keepBefore(store);
    const other = () => otherSetup(store.getState(), setupsStoreOf(store).getState().before);
    expect(other()).toEqual({ id: '1a' });
    showSetup(store, '2');
    expect(other()).toEqual({ id: undefined });
    showSetup(store, '4');
    expect(other()).toEqual({ id: '2' });
    removeSetup(store, '2');
    expect(other()).toEqual({ id: undefined });
    stop();
  });

  it('is shown as long as it is held, and holding it is no going to it', () => {
    const store = demoStore();
    const stop = keepBefore(store);
    showSetup(store, '2');
    showSetup(store, '4');
    holdOther(store);
    holdOther(store);
    expect(store.getState().setup).toBe('2');
    letOtherGo(store);
    letOtherGo(store);
    expect(store.getState().setup).toBe('4');
    expect(setupsStoreOf(store).getState().before).toBe('2');
    swapWithOther(store);
    swapWithOther(store);
    expect(store.getState().setup).toBe('4');
    stop();
  });

  it('is nothing in a scene without setups', () => {
    const store = demoStore();
    for (const id of DEMO_ORDER) removeSetup(store, id);
    holdOther(store);
    expect(otherSetup(store.getState(), undefined)).toBeNull();
    expect(setupsStoreOf(store).getState().held).toBeNull();
  });
});
