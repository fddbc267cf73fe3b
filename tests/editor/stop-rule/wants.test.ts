import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { balanceAtDesk } from '../../../src/editor/stop-rule/balance-desk.ts';
import { acceptLevels, wantsOf } from '../../../src/editor/stop-rule/find-levels.ts';
import {
  isAlone,
  lampsAlight,
  toggleAlone,
  toggleMuted,
  unmuteAll,
} from '../../../src/editor/stop-rule/muting.ts';
import { stopRuleActions } from '../../../src/editor/stop-rule/rule-actions.ts';
import { NO_RULE_STATE, ruleStore, sayRole, want } from '../../../src/editor/stop-rule/rule-state.ts';
import { createEditorStore, type EditorStore } from '../../../src/editor/store/editor-store.ts';
import { undo } from '../../../src/editor/store/edits.ts';
import { openScene } from '../../../src/scene/file/open-scene.ts';
import { keyfall, SCENES } from '../../support/command-line.ts';

const DEMO = join(SCENES, 'night-quay.json');
const demo = openScene(readFileSync(DEMO, 'utf8')).document!;
const LONG_ms = 120_000;

let store: EditorStore;
beforeEach(() => {
  store = createEditorStore();
  store.setState({ scene: { document: demo, beside: new Map() } });
  ruleStore.setState(NO_RULE_STATE);
});

describe('lamps left out of what is looked at', () => {
  it('are those that are on, one at a time or all but one', () => {
    expect(lampsAlight(store.getState()).map(({ id }) => id)).toEqual([
      'back',
      'key',
      'cabin',
      'rim',
      'fill',
    ]);
    expect(lampsAlight(store.getState())).toBe(lampsAlight(store.getState()));
    toggleMuted(store, 'key');
    expect([...store.getState().muted]).toEqual(['key']);
    toggleMuted(store, 'key');
    toggleAlone(store, 'back');
    expect(isAlone(store.getState(), 'back')).toBe(true);
    toggleAlone(store, 'back');
    expect(store.getState().muted.size).toBe(0);
    toggleMuted(store, 'rim');
    unmuteAll(store);
    expect(store.getState().muted.size).toBe(0);
  });

  it('leave the scene as it is', () => {
    const { scene } = store.getState();
    toggleAlone(store, 'key');
    expect(store.getState().scene).toBe(scene);
  });
});

describe('wants', () => {
  it('are kept by mark, in the order of the scene, without marks that are gone', () => {
    want('ben-face', -1);
    want('ada-face', 0);
    want('gone', 2);
    expect(wantsOf(store.getState(), ruleStore.getState().wants)).toEqual([
      { mark: 'ada-face', lamp: null, stops: 0 },
      { mark: 'ben-face', lamp: null, stops: -1 },
    ]);
    want('ada-face', null);
    expect(ruleStore.getState().wants.has('ada-face')).toBe(false);
  });

  it('and roles do not disturb each other', () => {
    sayRole('ada-face', 'key', 'fill');
    sayRole('ada-face', 'rim', null);
    expect(ruleStore.getState().roles.get('ada-face')).toEqual({ key: 'fill', rim: null });
  });
});

describe('levels for what is wanted', () => {
  it('are those of the command line, and taken as one step that undo takes back', {
    timeout: LONG_ms,
  }, async () => {
    want('ada-face', 0);
    const { wants } = ruleStore.getState();
    const state = store.getState();
    const { report } = await balanceAtDesk({
      document: demo,
      beside: new Map(),
      setup: undefined,
      camera: undefined,
      wants: wantsOf(state, wants),
    });
    const line = await keyfall('balance', DEMO, '--want', 'ada-face=0', '--json');
    expect(JSON.parse(JSON.stringify(report))).toMatchObject({ ...JSON.parse(line.out), camera: 'a' });

    const asked = { scene: state.scene!, setup: undefined, camera: 'a', wants };
    ruleStore.setState({ balance: { kind: 'proposed', asked, report: report! } });
    expect(acceptLevels(store)).toBe(true);
    const levelOf = (id: string) =>
      store.getState().scene!.document.lamps!.find((lamp) => lamp.id === id)!.level!;
    for (const { id, level, level_now } of report!.lamps) {
      if (level !== level_now) expect(levelOf(id)).toBeCloseTo(level, 3);
    }
    expect(store.getState().step).toBe('Levels for wanted stops');
    undo(store);
    expect(store.getState().scene!.document.lamps).toBe(demo.lamps);
  });

  it('become changes of the setup that is shown', () => {
    store.setState({ setup: '3' });
    const state = store.getState();
    const asked = { scene: state.scene!, setup: '3', camera: 'a', wants: new Map() };
    ruleStore.setState({ wants: asked.wants });
    const report = levels([{ id: 'key', level_now: 0.5, level: 0.25, nets_stops: 0, dimmer: 0.25 }]);
    ruleStore.setState({ balance: { kind: 'proposed', asked, report } });
    expect(acceptLevels(store)).toBe(true);
    const { document } = store.getState().scene!;
    expect(document.lamps).toEqual(demo.lamps);
    expect(document.setups!.find(({ id }) => id === '3')!.changes.key).toMatchObject({ level: 0.25 });
  });

  it('put scrims before a head that dims no further', () => {
    const asked = { scene: store.getState().scene!, setup: undefined, camera: 'a', wants: new Map() };
    ruleStore.setState({ wants: asked.wants });
    const report = levels([{ id: 'back', level_now: 1, level: 0.3, nets_stops: 1, dimmer: 0.6 }]);
    ruleStore.setState({ balance: { kind: 'proposed', asked, report } });
    expect(acceptLevels(store)).toBe(true);
    expect(store.getState().scene!.document.lamps![0]).toMatchObject({
      level: 0.6,
      filters: ['half-ctb', 'scrim-double'],
    });
  });

  it('are not taken into a scene that has changed since', () => {
    const { scene } = store.getState();
    const asked = { scene: scene!, setup: undefined, camera: 'a', wants: ruleStore.getState().wants };
    const report = levels([{ id: 'key', level_now: 0.5, level: 0.25, nets_stops: 0, dimmer: 0.25 }]);
    ruleStore.setState({ balance: { kind: 'proposed', asked, report } });
    const take = stopRuleActions.find(({ id }) => id === 'rule.take-levels')!;
    expect(take.enabled(store.getState())).toBe(true);
    store.setState({ scene: { ...scene!, document: { ...demo, title: 'Another' } } });
    expect(take.enabled(store.getState())).toBe(false);
    expect(acceptLevels(store)).toBe(false);
    expect(store.getState().scene!.document.lamps).toBe(demo.lamps);
  });

  it('of a mark that no lamp reaches cannot be had, and why is said', { timeout: LONG_ms }, async () => {
    const lamps = demo.lamps!.map((lamp) => ({ ...lamp, on: false }));
    const answer = await balanceAtDesk({
      document: { ...demo, lamps, readings: undefined },
      beside: new Map(),
      setup: undefined,
      camera: undefined,
      wants: [{ mark: 'ada-face', lamp: null, stops: 0 }],
    });
    expect(answer.report).toBeNull();
    expect(answer.problems[0]!.found).toContain('no lamp that is on gives any light');
  });
});

function levels(
  lamps: { id: string; level_now: number; level: number; nets_stops: number; dimmer: number }[],
) {
  return {
    keyfall: 1 as const,
    title: '',
    setup: null,
    camera: 'a',
    exposure: null as never,
    reached: true,
    wants: [],
    lamps: lamps.map((lamp) => ({ ...lamp, name: lamp.id })),
    marks: [],
  };
}

describe('the commands of the stop rule', () => {
  it('are enabled when they can do something, and have names of their own', () => {
    const able = () => stopRuleActions.filter(({ enabled }) => enabled(store.getState())).map(({ id }) => id);
    expect(new Set(stopRuleActions.map(({ name }) => name)).size).toBe(stopRuleActions.length);
    expect(able()).toEqual(['rule.want-zero']);
    store.setState({ lamp: 'key' });
    stopRuleActions.find(({ id }) => id === 'rule.alone')!.run(store);
    stopRuleActions.find(({ id }) => id === 'rule.want-zero')!.run(store);
    expect(isAlone(store.getState(), 'key')).toBe(true);
    expect(able()).toEqual([
      'rule.leave-out',
      'rule.alone',
      'rule.all-lamps',
      'rule.want-zero',
      'rule.want-nothing',
      'rule.find-levels',
    ]);
  });
});
