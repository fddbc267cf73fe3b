import type { Vec3 } from '../../core/math/vec3.ts';
import type { Command } from '../../scene/commands/command.ts';
import { choose } from '../store/choose.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { edit } from '../store/edits.ts';
import { documentShown } from '../store/shown-scene.ts';
import { type Alignment, aligned, atSameHeight } from './arrange/align.ts';
import { duplicateThings } from './arrange/duplicate.ts';
import { type MirrorAxis, mirrorThings } from './arrange/mirror.ts';
import { placeThings } from './arrange/place-things.ts';
import { KIND_WORDS, type PlanThing, planThings, THING_KINDS, thingNamed } from './arrange/plan-things.ts';
import { removeThings } from './arrange/remove.ts';
import { fitAll, fitChosen } from './drawing/fit.ts';
import { PROJECTIONS, SHEETS } from './drawing/projection.ts';
import { stepFor } from './hands/drags.ts';
import { isLocked, type PlanState, planStoreOf, toggled } from './plan-state.ts';

/** Something that the plan can do, for its menus, its keys and the page's list of commands. */
export interface PlanAction {
  readonly id: string;
  readonly name: string;
  /** As `KeyboardEvent.key`, with `Mod+` for Ctrl or ⌘ and `Shift+`. They hold while the drawing has the focus. */
  readonly keys?: string;
  run(): void;
  enabled(): boolean;
}

/** Copies are put so far to the right and down the plan that both can be taken hold of. */
const BESIDE_m: Vec3 = [0.5, 0, 0.5];

const ALIGNMENTS: readonly (readonly [Alignment, string])[] = [
  ['left', 'Align left'],
  ['centre', 'Align centre, left to right'],
  ['right', 'Align right'],
  ['top', 'Align top'],
  ['middle', 'Align middle, top to bottom'],
  ['bottom', 'Align bottom'],
];

/** Everything that the plan can do to what is chosen and to itself. */
export function planActions(editor: EditorStore): readonly PlanAction[] {
  const plan = planStoreOf(editor);
  const chosen = (): readonly PlanThing[] => {
    const document = documentShown(editor.getState());
    if (!document) return [];
    return editor.getState().chosen.flatMap((id) => thingNamed(document, id) ?? []);
  };
  const free = () => chosen().filter(({ id, kind }) => !isLocked(plan.getState(), id, kind));
  const change = (what: string, commands: (things: readonly PlanThing[]) => readonly Command[]) => {
    const things = free();
    const made = commands(things);
    if (made.length > 0) edit(editor, made, stepFor(what, things));
  };
  const document = () => documentShown(editor.getState())!;
  const atLeast = (count: number) => () => free().length >= count;
  const always = () => editor.getState().scene !== null;
  const set = (part: Partial<PlanState>) => plan.setState(part);
  const align = (alignment: Alignment, name: string): PlanAction => ({
    id: `plan-align-${alignment}`,
    name,
    enabled: atLeast(2),
    run: () =>
      change('Align', (things) =>
        placeThings(document(), aligned(things, alignment, plan.getState().projection)),
      ),
  });
  const mirror = (axis: MirrorAxis, name: string): PlanAction => ({
    id: `plan-mirror-${axis}`,
    name,
    enabled: atLeast(1),
    run: () => change('Mirror', (things) => mirrorThings(document(), things, axis)),
  });

  return [
    ...PROJECTIONS.map(
      (projection): PlanAction => ({
        id: `plan-show-${projection}`,
        name: `Show ${lowerFirst(SHEETS[projection].name)}`,
        enabled: always,
        run: () => set({ projection }),
      }),
    ),
    {
      id: 'plan-fit-all',
      name: 'Fit all on the plan',
      keys: 'f',
      enabled: always,
      run: () => fitAll(editor),
    },
    {
      id: 'plan-fit-chosen',
      name: 'Fit what is chosen on the plan',
      keys: 'Shift+F',
      enabled: () => chosen().length > 0,
      run: () => fitChosen(editor),
    },
    {
      id: 'plan-choose-all',
      name: 'Choose all lamps, marks, figures and cameras',
      keys: 'Mod+a',
      enabled: always,
      run: () =>
        choose(
          editor,
          planThings(document())
            .filter(
              ({ kind }) => kind !== 'solids' && kind !== 'keepOut' && kind !== 'haze' && kind !== 'paths',
            )
            .map(({ id }) => id),
        ),
    },
    {
      id: 'plan-duplicate',
      name: 'Duplicate',
      keys: 'Mod+d',
      enabled: () => chosen().length > 0,
      run: () => {
        const things = chosen();
        const { commands, ids } = duplicateThings(document(), things, BESIDE_m);
        if (commands.length === 0 || !edit(editor, commands, stepFor('Duplicate', things))) return;
        choose(editor, ids);
        set({ focused: ids.at(-1)! });
      },
    },
    {
      id: 'plan-remove',
      name: 'Remove what is chosen',
      keys: 'Delete',
      enabled: atLeast(1),
      run: () => {
        const things = free();
        if (edit(editor, removeThings(document(), things), stepFor('Remove', things))) choose(editor, []);
      },
    },
    mirror('x', 'Mirror left and right (x)'),
    mirror('z', 'Mirror near and far (z)'),
    ...ALIGNMENTS.map(([alignment, name]) => align(alignment, name)),
    {
      id: 'plan-same-height',
      name: 'Bring to the height of the last chosen',
      enabled: atLeast(2),
      run: () => change('Level', (things) => placeThings(document(), atSameHeight(things))),
    },
    {
      id: 'plan-lock',
      name: 'Lock or unlock what is chosen',
      keys: 'l',
      enabled: () => chosen().length > 0,
      run: () => {
        const ids = chosen().map(({ id }) => id);
        const { locked } = plan.getState();
        const every = ids.every((id) => locked.has(id));
        set({ locked: every ? without(locked, ids) : new Set([...locked, ...ids]) });
      },
    },
    {
      id: 'plan-hide',
      name: 'Hide what is chosen on the plan',
      keys: 'h',
      enabled: () => chosen().length > 0,
      run: () => {
        set({ hidden: new Set([...plan.getState().hidden, ...chosen().map(({ id }) => id)]) });
        choose(editor, []);
      },
    },
    {
      id: 'plan-show-hidden',
      name: 'Show everything that is hidden on the plan',
      enabled: () => plan.getState().hidden.size > 0 || plan.getState().hiddenKinds.size > 0,
      run: () => set({ hidden: new Set(), hiddenKinds: new Set() }),
    },
    {
      id: 'plan-measure',
      name: 'Measure from here',
      keys: 'm',
      enabled: always,
      run: () => set({ settingDatum: !plan.getState().settingDatum }),
    },
    {
      id: 'plan-measure-end',
      name: 'Measure no more',
      enabled: () => plan.getState().datum_m !== null,
      run: () => set({ datum_m: null, settingDatum: false }),
    },
    {
      id: 'plan-snap',
      name: 'Snapping on or off',
      keys: 's',
      enabled: always,
      run: () => set({ snapping: !plan.getState().snapping }),
    },
    {
      id: 'plan-contours',
      name: 'Light on the plan on or off',
      keys: 'i',
      enabled: always,
      run: () => set({ contoursShown: !plan.getState().contoursShown, projection: 'plan' }),
    },
    {
      id: 'plan-clear',
      name: 'Where the lamp is clear of glints, on or off',
      keys: 'c',
      enabled: always,
      run: () => set({ clearShown: !plan.getState().clearShown, projection: 'plan' }),
    },
    {
      id: 'plan-level',
      name: 'Beams and light at the ground or at face height',
      enabled: always,
      run: () => set({ level: plan.getState().level === 'ground' ? 'face' : 'ground' }),
    },
    ...THING_KINDS.map(
      (kind): PlanAction => ({
        id: `plan-hide-${kind}`,
        name: `Show or hide on the plan: ${lowerFirst(KIND_WORDS[kind].many)}`,
        enabled: always,
        run: () => set({ hiddenKinds: toggled(plan.getState().hiddenKinds, kind) }),
      }),
    ),
  ];
}

function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

function without(set: ReadonlySet<string>, members: readonly string[]): ReadonlySet<string> {
  return new Set([...set].filter((one) => !members.includes(one)));
}
