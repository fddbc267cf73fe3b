import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { spokenPlace } from '../../../src/editor/plan/drawing/thing-group.tsx';
import { newPlanHands } from '../../../src/editor/plan/hands/plan-hands.ts';
import { newPlanKeys } from '../../../src/editor/plan/hands/plan-keys.ts';
import { freeMove, snapMove, snapTargets } from '../../../src/editor/plan/hands/snap.ts';
import { planActions } from '../../../src/editor/plan/plan-actions.ts';
import { choose } from '../../../src/editor/store/choose.ts';
import { edit, undo } from '../../../src/editor/store/edits.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { smallScene } from '../../support/scenes.ts';
import { drawnScene } from './support/drawn-scene.ts';

/** Two lamps, one mark, one camera, a figure and a floor that is larger than the sheet. */
function floorScene(): SceneDocument {
  const scene = smallScene();
  return {
    ...scene,
    solids: [
      { id: 'floor', shape: 'box', material: 'grey-card', position_m: [0, -0.5, 0], size_m: [60, 1, 60] },
      { id: 'crate', shape: 'box', material: 'grey-card', position_m: [-4, 0.5, -3], size_m: [1, 1, 1] },
    ],
    lamps: [
      { ...scene.lamps![0]!, name: 'Key', position_m: [2, 3, 1] },
      { id: 'rim', name: 'Rim', head: 'plain', position_m: [-3, 2, 2.03], aim_m: [0, 1, 0] },
    ],
    figures: [{ id: 'ada', name: 'Ada', position_m: [-1, 0, -2], heading_deg: 30 }],
  };
}

function begin() {
  const drawn = drawnScene(floorScene());
  const hands = newPlanHands(drawn.editor, drawn.plan);
  const press = (u: number, v: number, more: { shift?: boolean; touch?: boolean; over?: string } = {}) =>
    hands.down({
      pointer: 1,
      at_px: drawn.at(u, v),
      touch: more.touch ?? false,
      shift: more.shift ?? false,
      over: more.over ?? null,
    });
  const to = (u: number, v: number, free = false) => hands.move(1, drawn.at(u, v), free);
  return { ...drawn, hands, press, to, letGo: () => hands.up(1) };
}

describe('snapping', () => {
  const targets = snapTargets(
    [
      [1, 5],
      [3, 7],
    ],
    0.5,
  );

  it('catches on the nearest line of another thing, and shows it', () => {
    const snapped = snapMove([[0, 0]], 0.96, 2.3, targets, 0.1);
    expect(snapped.du_m).toBe(1);
    expect(snapped.guides).toEqual([{ axis: 'across', at_m: 1 }]);
  });

  it('else on the grid, else on whole centimetres; each coordinate by itself', () => {
    const snapped = snapMove([[0.02, 0]], 1.95, 2.3333, targets, 0.1);
    expect(0.02 + snapped.du_m).toBe(2);
    expect(snapped.dv_m).toBe(2.33);
    expect(snapped.guides).toEqual([]);
  });

  it('catches with any of the things that move', () => {
    const snapped = snapMove(
      [
        [0, 0],
        [1.2, 0],
      ],
      1.77,
      0,
      targets,
      0.1,
    );
    expect(1.2 + snapped.du_m).toBeCloseTo(3, 12);
  });

  it('does not when it must not', () => {
    expect(freeMove([[0, 0]], 0.967, 0.01).du_m).toBe(0.97);
  });
});

describe('a hand on the plan', () => {
  it('drags a lamp as one step that undo takes back', () => {
    const { press, to, letGo, scene, editor, stepsBack } = begin();
    press(2.1, 1);
    to(2.6, 1.4);
    to(3.13, 1.72);
    expect(editor.getState().gesture).toBe('drag');
    letGo();
    // Derived: 1.03 along and 0.72 down from 2, 1; both to the centimetre, nothing near to catch on but the grid of ½ m.
    expect(scene().lamps![0]!.position_m).toEqual([3, 3, 1.72]);
    expect(scene().lamps![0]!.aim_m).toEqual(floorScene().lamps![0]!.aim_m);
    expect(editor.getState()).toMatchObject({ gesture: null, chosen: ['key'], step: 'Move Key' });
    expect(stepsBack()).toBe(1);
    undo(editor);
    expect(scene().lamps![0]!.position_m).toEqual([2, 3, 1]);
  });

  it('shows what it catches on, and with Alt catches on nothing', () => {
    const { press, to, letGo, plan, scene } = begin();
    press(2, 1);
    to(3.3, 2.08);
    expect(plan.getState().guides).toEqual([{ axis: 'down', at_m: 2.03 }]);
    to(3.3, 2.08, true);
    expect(plan.getState().guides).toEqual([]);
    expect(scene().lamps![0]!.position_m[2]).toBe(2.08);
    letGo();
  });

  it('moves all that is chosen', () => {
    const { press, to, letGo, scene, editor, stepsBack } = begin();
    choose(editor, ['ada', 'key']);
    press(2, 1);
    to(3, 1.5, true);
    letGo();
    expect(scene().figures![0]!.position_m).toEqual([0, 0, -1.5]);
    expect(scene().lamps![0]!.position_m).toEqual([3, 3, 1.5]);
    expect(stepsBack()).toBe(1);
    expect(editor.getState().step).toBe('Move 2 things');
  });

  it('aims the chosen lamp by its aim point, and turns a figure by its knob', () => {
    const { press, to, letGo, scene, editor } = begin();
    choose(editor, ['rim']);
    press(0, 0);
    to(0.5, -1, true);
    letGo();
    expect(scene().lamps![1]!.aim_m).toEqual([0.5, 1, -1]);
    choose(editor, ['ada']);
    // Derived: the knob hangs 46 px, 0.92 m, off along 30°: 0.46 and 0.797. It is taken round to 90°.
    press(-1 + 0.46, -2 + 0.797);
    to(-1 + 0.92, -2);
    letGo();
    expect(scene().figures![0]!.heading_deg).toBe(90);
    expect(editor.getState().step).toBe('Turn Ada');
  });

  it('lifts a lamp by its knob in elevation, and only lifts it', () => {
    const { press, to, letGo, scene, editor, plan } = begin();
    plan.setState({ projection: 'along-x' });
    choose(editor, ['key']);
    press(2, -3 - 0.92);
    to(2.7, -4 - 0.92, true);
    letGo();
    expect(scene().lamps![0]!.position_m).toEqual([2, 4, 1]);
  });

  it('moves the sheet over empty ground and over a floor that is not chosen, and chooses nothing', () => {
    const { press, to, letGo, plan, scene, editor } = begin();
    press(5, -4, { over: 'floor' });
    to(4, -4);
    letGo();
    expect(plan.getState().views.plan!.centre_m[0]).toBeCloseTo(1, 12);
    expect(scene()).toEqual(floorScene());
    expect(editor.getState().chosen).toEqual([]);
  });

  it('drags a small body by its outline', () => {
    const { press, to, letGo, scene } = begin();
    press(-4.2, -3.2, { over: 'crate' });
    to(-3.2, -3.2, true);
    letGo();
    expect(scene().solids![1]!.position_m).toEqual([-3, 0.5, -3]);
  });

  it('leaves alone what is locked, by itself or by its kind', () => {
    const { press, to, letGo, scene, plan } = begin();
    plan.setState({ locked: new Set(['key']), lockedKinds: new Set(['figures']) });
    press(2, 1);
    to(3, 2);
    letGo();
    press(-1, -2, { over: 'ada' });
    to(0, 0);
    letGo();
    expect(scene()).toEqual(floorScene());
  });

  it('takes a figure’s own marks along, as one step named after the figure', () => {
    const { press, to, letGo, scene, editor } = begin();
    const face = { id: 'ada-face', position_m: [-1, 1.6, -1.85] as [number, number, number] };
    edit(editor, { do: 'add', to: 'marks', thing: face });
    const far = scene().marks![0]!;
    choose(editor, ['ada']);
    press(-1.2, -2.3, { over: 'ada' });
    to(-0.7, -1.3, true);
    letGo();
    expect(scene().figures![0]!.position_m).toEqual([-0.5, 0, -1]);
    expect(scene().marks!.at(-1)!.position_m).toEqual([-0.5, 1.6, -0.85]);
    expect(scene().marks![0]).toEqual(far);
    expect(editor.getState().step).toBe('Move Ada');
    undo(editor);
    expect(scene().marks!.at(-1)).toEqual(face);
  });

  it('leaves things alone while something is in hand to be put down', () => {
    const { hands, at, scene, editor } = begin();
    const place = at(2, 1);
    hands.down({ pointer: 1, at_px: place, touch: false, shift: false, over: 'key', placing: true });
    hands.move(1, [place[0] + 40, place[1]], true);
    hands.up(1);
    hands.down({ pointer: 1, at_px: at(2, 1), touch: false, shift: false, over: 'key', placing: true });
    hands.up(1);
    expect(scene()).toEqual(floorScene());
    expect(editor.getState().chosen).toEqual([]);
  });

  it('cannot take hold of what is hidden', () => {
    const { hands, plan, at } = begin();
    expect(hands.handleUnder(at(2, 1))?.id).toBe('key');
    plan.setState({ hidden: new Set(['key']) });
    expect(hands.handleUnder(at(2, 1))).toBeNull();
  });

  it('chooses on a press, adds with Shift, and lets go of all on empty ground', () => {
    const { press, letGo, editor } = begin();
    press(2, 1);
    letGo();
    press(-3, 2.03, { shift: true });
    letGo();
    expect(editor.getState().chosen).toEqual(['key', 'rim']);
    press(6, 5);
    letGo();
    expect(editor.getState().chosen).toEqual([]);
  });

  it('draws round things with Shift, bodies only if all of them is within', () => {
    const { press, to, letGo, editor, plan } = begin();
    press(-5, 2.5, { shift: true });
    to(0, 0);
    to(2.5, -4);
    expect(plan.getState().lasso).not.toBeNull();
    letGo();
    expect(editor.getState().chosen).toEqual(['key', 'rim', 'face', 'ada', 'crate']);
    expect(plan.getState().lasso).toBeNull();
  });

  it('pinches about the middle between two fingers', () => {
    const { hands, plan } = begin();
    const finger = (pointer: number, x: number) =>
      hands.down({ pointer, at_px: [x, 300], touch: true, shift: false, over: null });
    finger(1, 350);
    finger(2, 450);
    hands.move(2, [550, 300], false);
    // Derived: 100 px apart become 200, and the middle goes from 400 to 450.
    expect(plan.getState().views.plan!.scale_px_m).toBe(100);
    hands.up(1);
    hands.up(2);
  });

  it('lets go when a drag is undone under it', () => {
    const { press, to, letGo, scene, editor, stepsBack } = begin();
    press(2, 1);
    to(3, 1);
    undo(editor);
    to(3.5, 1);
    letGo();
    expect(scene()).toEqual(floorScene());
    expect(stepsBack()).toBe(0);
  });

  it('sets where to measure from: on a thing, its place; on the ground, the grid', () => {
    const { press, letGo, plan } = begin();
    plan.setState({ settingDatum: true });
    press(2.05, 1);
    letGo();
    expect(plan.getState()).toMatchObject({ datum_m: [2, 3, 1], settingDatum: false });
    plan.setState({ settingDatum: true });
    press(6.02, -5.03);
    letGo();
    expect(plan.getState().datum_m).toEqual([6, 0, -5]);
  });

  describe('that stays', () => {
    beforeEach(() => void vi.useFakeTimers());
    afterEach(() => void vi.useRealTimers());

    it('on one place adds what lies there', () => {
      const { press, letGo, editor } = begin();
      choose(editor, ['rim']);
      press(2, 1, { touch: true });
      vi.advanceTimersByTime(700);
      letGo();
      expect(editor.getState().chosen).toEqual(['rim', 'key']);
    });
  });
});

describe('keys on the plan', () => {
  const key = (name: string, more: object = {}) => ({
    key: name,
    shift: false,
    mod: false,
    alt: false,
    ...more,
  });

  function keyed() {
    const drawn = drawnScene(floorScene());
    const focused: string[] = [];
    const focus = (id: string) => {
      focused.push(id);
      drawn.plan.setState({ focused: id });
    };
    const keys = newPlanKeys(drawn.editor, drawn.plan);
    return {
      ...drawn,
      focused,
      keys,
      down: (name: string, more: object = {}) => keys.down(key(name, more), focus),
    };
  }

  it('nudge what has the focus; a held key is one step; ten times as far with Shift', () => {
    const { down, keys, plan, scene, stepsBack } = keyed();
    plan.setState({ focused: 'key' });
    for (let i = 0; i < 4; i++) down('ArrowRight');
    keys.up();
    expect(scene().lamps![0]!.position_m).toEqual([2.2, 3, 1]);
    down('ArrowUp', { shift: true });
    keys.up();
    expect(scene().lamps![0]!.position_m).toEqual([2.2, 3, 0.5]);
    down('PageUp');
    keys.up();
    expect(scene().lamps![0]!.position_m).toEqual([2.2, 3.05, 0.5]);
    expect(stepsBack()).toBe(3);
  });

  it('nudge by inches where the tape has inches', () => {
    const { down, keys, plan, scene, editor } = keyed();
    editor.setState({ lengths: 'imperial' });
    plan.setState({ focused: 'key' });
    down('ArrowRight');
    keys.up();
    expect(scene().lamps![0]!.position_m[0]).toBe(2.0508);
  });

  it('go through everything with Tab, and leave at the end or after Escape', () => {
    const { down, focused } = keyed();
    let taken = 0;
    while (down('Tab') && taken < 50) taken++;
    expect(focused).toEqual(['rim', 'face', 'ada', 'a', 'floor', 'crate']);
    expect(down('Tab', { shift: true })).toBe(true);
    down('Escape');
    expect(down('Tab', { shift: true })).toBe(false);
    expect(down('Tab', { shift: true })).toBe(true);
  });

  it('choose with Enter, add with Shift and Enter', () => {
    const { down, editor, plan } = keyed();
    plan.setState({ focused: 'ada' });
    down('Enter');
    plan.setState({ focused: 'a' });
    down(' ', { shift: true });
    expect(editor.getState().chosen).toEqual(['ada', 'a']);
  });

  it('do what the menu says', () => {
    const { down, editor, scene, plan } = keyed();
    choose(editor, ['rim']);
    expect(down('d', { mod: true })).toBe(true);
    expect(scene().lamps!.map(({ id }) => id)).toEqual(['key', 'rim', 'rim-2']);
    expect(editor.getState().chosen).toEqual(['rim-2']);
    expect(plan.getState().focused).toBe('rim-2');
    down('Delete');
    expect(scene().lamps).toHaveLength(2);
    expect(down('q')).toBe(false);
  });
});

describe('actions of the plan', () => {
  it('have ids of their own, and are off where there is nothing to do', () => {
    const { editor } = drawnScene({ keyfall: 1, title: 'Empty' });
    const actions = planActions(editor);
    expect(new Set(actions.map(({ id }) => id)).size).toBe(actions.length);
    const keys = actions.flatMap(({ keys: one }) => one ?? []);
    expect(new Set(keys).size).toBe(keys.length);
    for (const id of ['plan-duplicate', 'plan-align-left', 'plan-mirror-x', 'plan-remove', 'plan-fit-chosen'])
      expect(actions.find((action) => action.id === id)!.enabled()).toBe(false);
    for (const action of actions) if (action.enabled()) action.run();
  });

  it('align, mirror and level what is chosen, each in one step', () => {
    const { editor, scene, stepsBack } = drawnScene(floorScene());
    choose(editor, ['key', 'rim']);
    const run = (id: string) =>
      planActions(editor)
        .find((action) => action.id === id)!
        .run();
    run('plan-align-left');
    expect(scene().lamps!.map(({ position_m }) => position_m[0])).toEqual([-3, -3]);
    run('plan-same-height');
    expect(scene().lamps!.map(({ position_m }) => position_m[1])).toEqual([2, 2]);
    run('plan-mirror-z');
    expect(scene().lamps!.map(({ position_m }) => position_m[2])).toEqual([2.03, 1]);
    expect(stepsBack()).toBe(3);
  });

  it('lock, unlock and hide', () => {
    const { editor, plan } = drawnScene(floorScene());
    choose(editor, ['key']);
    const action = (id: string) => planActions(editor).find((one) => one.id === id)!;
    action('plan-lock').run();
    expect(plan.getState().locked).toEqual(new Set(['key']));
    expect(action('plan-remove').enabled()).toBe(false);
    action('plan-lock').run();
    expect(plan.getState().locked.size).toBe(0);
    action('plan-hide').run();
    expect(plan.getState().hidden).toEqual(new Set(['key']));
    action('plan-show-hidden').run();
    expect(plan.getState().hidden.size).toBe(0);
  });
});

describe('the state of the drawing', () => {
  it('is afresh with every scene that is opened, on the sheet that was looked at', () => {
    const { editor, plan } = drawnScene(floorScene());
    plan.setState({
      hidden: new Set(['key']),
      datum_m: [1, 0, 1],
      projection: 'along-z',
      contoursShown: true,
    });
    editor.setState({ openings: 2 });
    expect(plan.getState()).toMatchObject({
      datum_m: null,
      projection: 'along-z',
      views: {},
      contoursShown: false,
    });
    expect(plan.getState().hidden.size).toBe(0);
  });

  it('says what and where a thing is, in the lengths of the page', () => {
    const place = [25, 2.15, -1.7] as const;
    expect(spokenPlace('Backlight', 'lamps', place, 'metric', false)).toBe(
      'Backlight, lamp, x 25 m, z −1.7 m, height 2.15 m',
    );
    expect(spokenPlace('Edge', 'keepOut', [0.3048, 0, 0], 'imperial', true)).toBe(
      'Edge, keep-out area, x 1 ft, z 0 in, locked',
    );
  });
});
