import type { ReactNode } from 'react';
import type { Vec3 } from '../../../core/math/vec3.ts';
import { lengthText } from '../../figures/length-text.ts';
import { choose } from '../../store/choose.ts';
import type { LengthSystem } from '../../store/editor-state.ts';
import { useEditor, useEditorStore } from '../../store/use-editor.ts';
import { KIND_WORDS, type ThingKind } from '../arrange/plan-things.ts';
import { isLocked } from '../plan-state.ts';
import { usePlan, usePlanStore } from '../use-plan.ts';

interface ThingGroupProps {
  readonly id: string;
  readonly kind: ThingKind;
  readonly name: string;
  readonly position_m: Vec3;
  readonly className: string;
  readonly transform?: string;
  readonly children: ReactNode;
  /** What is written on it or beside it; a voice reads out its own words. */
  readonly words?: ReactNode;
}

/** What is drawn of one thing: the keys go through these, and a voice reads out what and where it is. */
export function ThingGroup(props: ThingGroupProps) {
  const { id, kind, name, position_m, className, transform, children, words } = props;
  const editor = useEditorStore();
  const plan = usePlanStore();
  const chosen = useEditor((state) => state.chosen.includes(id));
  const lengths = useEditor((state) => state.lengths);
  const focused = usePlan((state) => state.focused === id);
  const locked = usePlan((state) => isLocked(state, id, kind));
  return (
    <g
      className={`plan-thing ${className}${chosen ? ' chosen' : ''}${locked ? ' locked' : ''}`}
      transform={transform}
    >
      {/* biome-ignore lint/a11y/useSemanticElements: a part of a drawing, not of a form */}
      <g
        role="button"
        tabIndex={focused ? 0 : -1}
        data-thing={id}
        className="plan-grip"
        aria-label={spokenPlace(name, kind, position_m, lengths, locked)}
        aria-pressed={chosen}
        onFocus={() => plan.setState({ focused: id })}
        onClick={(event) => {
          // A press of the pointer is the drawing's own; this one comes from a voice or a switch.
          if (event.detail === 0) choose(editor, [id]);
        }}
      >
        {children}
      </g>
      {words}
    </g>
  );
}

/** "Backlight, lamp, x 25 m, z −1.7 m, height 2.15 m". */
export function spokenPlace(
  name: string,
  kind: ThingKind,
  [x, y, z]: Vec3,
  lengths: LengthSystem,
  locked: boolean,
): string {
  const text = (length_m: number) => lengthText(length_m, lengths);
  return [
    name,
    KIND_WORDS[kind].one,
    `x ${text(x)}`,
    `z ${text(z)}`,
    ...(kind === 'keepOut' ? [] : [`height ${text(y)}`]),
    ...(locked ? ['locked'] : []),
  ].join(', ');
}
