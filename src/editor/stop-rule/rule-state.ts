import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { BalanceReport } from '../../scene/balance/balance-scene.ts';
import type { Problem } from '../../scene/problems/problem.ts';
import type { EditorState, Scene } from '../store/editor-state.ts';
import { cameraShown, setupShown } from '../store/shown-scene.ts';
import type { Roles } from './ratios.ts';

/** What a proposal of levels was worked out for. */
export interface AskedOf {
  readonly scene: Scene;
  readonly setup: string | undefined;
  readonly camera: string | undefined;
  readonly wants: ReadonlyMap<string, number>;
}

export type Balance =
  | { readonly kind: 'none' }
  | { readonly kind: 'working'; readonly since_ms: number }
  | { readonly kind: 'proposed'; readonly asked: AskedOf; readonly report: BalanceReport }
  /** Not possible as asked (`problems`), or the worker failed (`message`). */
  | { readonly kind: 'failed'; readonly message: string | null; readonly problems: readonly Problem[] };

/** What the stop rule keeps beside the scene: nothing of it is in the document, and undo does not go over it. */
export interface RuleState {
  /** Of which opened scene it is, as the page counts them. */
  readonly openings: number;
  /** By mark: the stops over the camera's zero that all light is to come to there. */
  readonly wants: ReadonlyMap<string, number>;
  /** By mark: which lamp is the key, the fill, the rim, where a person has said so. */
  readonly roles: ReadonlyMap<string, Roles>;
  readonly tab: 'mark' | 'wanted';
  readonly balance: Balance;
}

export const NO_RULE_STATE: RuleState = {
  openings: 0,
  wants: new Map(),
  roles: new Map(),
  tab: 'mark',
  balance: { kind: 'none' },
};

export const ruleStore = createStore<RuleState>(() => NO_RULE_STATE);

export function useRule<T>(select: (state: RuleState) => T): T {
  return useStore(ruleStore, select);
}

/** What all light at a mark is to come to; null takes the want away. */
export function want(mark: string, stops: number | null): void {
  const wants = new Map(ruleStore.getState().wants);
  if (stops === null) wants.delete(mark);
  else wants.set(mark, stops);
  ruleStore.setState({ wants });
}

export function sayRole(mark: string, role: keyof Roles, lamp: string | null): void {
  const { roles } = ruleStore.getState();
  ruleStore.setState({ roles: new Map(roles).set(mark, { ...roles.get(mark), [role]: lamp }) });
}

/** Whether a proposal still is of what is on screen: the scene, its setup and camera, and the wants. */
export function isOf(asked: AskedOf, state: EditorState, wants: RuleState['wants']): boolean {
  return (
    asked.scene === state.scene &&
    asked.setup === setupShown(state) &&
    asked.camera === cameraShown(state)?.id &&
    asked.wants === wants
  );
}
