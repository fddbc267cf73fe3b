import { afterEach, describe, expect, it } from 'vitest';
import { buildingActions } from '../../../src/editor/building/building-actions.ts';
import { placeAt, placingNow, startPlacing, stopPlacing } from '../../../src/editor/building/placing.ts';
import { placingOn } from '../../../src/editor/building/placing-on.ts';
import { putInPlace, recipeNamed } from '../../../src/editor/building/put-in-place.ts';
import { createEditorStore } from '../../../src/editor/store/editor-store.ts';
import { undo } from '../../../src/editor/store/edits.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { sceneNamed } from '../../scene/building/support.ts';

function storeWith(document: SceneDocument) {
  const store = createEditorStore();
  store.setState({ scene: { document, beside: new Map() } });
  return store;
}

const empty: SceneDocument = { keyfall: 1, title: '' };
const document = (store: ReturnType<typeof createEditorStore>) => store.getState().scene!.document;

afterEach(stopPlacing);

describe('a thing in hand', () => {
  it('is put where the plan is pressed, as one step, and chosen', () => {
    const store = storeWith(empty);
    startPlacing(store, recipeNamed(store, 'figure:with-rim')!);
    expect(placingNow()).toMatchObject({ hint: 'Stand it here', points_m: [] });
    expect(placingNow()!.make([2, 0, 1])).toHaveLength(3);
    expect(document(store).figures).toBeUndefined();
    expect(placeAt([2, 0, 1])).toBe(true);
    expect(placingNow()).toBeNull();
    expect(document(store).figures![0]!.position_m).toEqual([2, 0, 1]);
    expect(store.getState()).toMatchObject({ chosen: ['figure-1'], step: 'Add Figure 1' });
    undo(store);
    expect(document(store)).toBe(empty);
  });

  it('asks for its second point, and is looked through if it is a camera', () => {
    const store = storeWith(sceneNamed('night-quay'));
    startPlacing(store, recipeNamed(store, 'camera')!);
    expect(placingNow()!.make([-5, 0, 1])).toEqual([]);
    expect(placeAt([-5, 0, 1])).toBe(false);
    expect(placingNow()).toMatchObject({ hint: 'Look there', points_m: [[-5, 0, 1]] });
    expect(placingNow()!.make([0, 0, 0])).toHaveLength(1);
    expect(placeAt([0, 0, 0])).toBe(true);
    expect(store.getState().camera).toBe('c');
  });

  it('is put down again, and nothing happens then', () => {
    const store = storeWith(empty);
    startPlacing(store, recipeNamed(store, 'solid:box')!);
    stopPlacing();
    expect(placeAt([0, 0, 0])).toBe(false);
    expect(document(store)).toBe(empty);
    startPlacing(store, recipeNamed(store, 'setup')!);
    expect(placingNow()).toBeNull();
  });
});

describe('a drawing that is pressed', () => {
  const at = (clientX: number, clientY: number, pointerId = 1) =>
    ({ clientX, clientY, pointerId, button: 0 }) as never;

  it('takes a steady press and no drag, pinch or press beside the ground', () => {
    const store = storeWith(empty);
    const hands = placingOn(({ clientX }) => (clientX < 0 ? null : [clientX / 10, 0, 0]));
    const figures = () => document(store).figures?.length ?? 0;
    startPlacing(store, recipeNamed(store, 'figure:standing')!);
    hands.onPointerDown(at(10, 10));
    hands.onPointerUp(at(40, 10));
    hands.onPointerDown(at(10, 10));
    hands.onPointerDown(at(90, 10, 2));
    hands.onPointerUp(at(90, 10, 2));
    hands.onPointerUp(at(10, 10));
    hands.onPointerDown(at(-10, 10));
    hands.onPointerUp(at(-10, 10));
    expect(figures()).toBe(0);
    hands.onPointerDown(at(10, 10));
    hands.onPointerUp(at(12, 11));
    expect(document(store).figures![0]!.position_m).toEqual([1.2, 0, 0]);
    hands.onPointerDown(at(10, 10));
    hands.onPointerUp(at(10, 10));
    expect(figures()).toBe(1);
  });
});

describe('a thing that is added', () => {
  it('is shown where it can be: a new setup, begun as what is shown', () => {
    const store = storeWith(sceneNamed('night-quay'));
    expect(putInPlace(store, recipeNamed(store, 'setup')!)).toBe(true);
    expect(store.getState().setup).toBe('setup-1');
    // While it is shown, what is given is its own, what is added stands in all.
    store.setState({ chosen: ['back'] });
    putInPlace(store, recipeNamed(store, 'filter:frost')!);
    putInPlace(store, recipeNamed(store, 'solid:box')!);
    const after = document(store);
    expect(after.setups!.at(-1)!.changes).toEqual({ back: { filters: ['half-ctb', 'frost'] } });
    expect(after.solids!.at(-1)!.id).toBe('box');
  });

  it('is not added while something is lacking, and the commands say so', () => {
    const store = storeWith(empty);
    expect(putInPlace(store, recipeNamed(store, 'mark:face')!)).toBe(false);
    const action = (id: string) => buildingActions.find((one) => one.id === id)!;
    expect(action('add.mark:face').enabled(store.getState())).toBe(false);
    expect(action('place.stop').enabled(store.getState())).toBe(false);
    action('place.solid:box').run(store);
    expect(action('place.stop').enabled(store.getState())).toBe(true);
    action('place.stop').run(store);
    action('add.figure:standing').run(store);
    expect(document(store).figures).toHaveLength(1);
    expect(action('add.mark:face').enabled(store.getState())).toBe(true);
    expect(new Set(buildingActions.map(({ id }) => id)).size).toBe(buildingActions.length);
  });
});
