import type { Lamp } from '../../scene/schema/lamp.ts';
import type { Ground } from '../../scene/stands/ground.ts';
import { standHeight } from '../../scene/stands/stand-height.ts';
import { edit } from '../store/edits.ts';
import { documentShown, lampChosen, setupShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { Dial } from './dial.tsx';
import { FilterChoice } from './filter-choice.tsx';
import { percentText, stopsText } from './level-text.ts';
import { reachOf } from './reach.ts';

const AXES = ['x', 'y', 'z'] as const;

/** The chosen lamp: how bright, where, aimed at what. */
export function LampControls() {
  const store = useEditorStore();
  const lamp = useEditor(lampChosen);
  const setup = useEditor(setupShown);
  const setupName = useEditor((state) => state.scene?.document.setups?.find(({ id }) => id === setup)?.name);
  const refused = useEditor((state) => state.refusedEdit);
  const reach = reachOf(useEditor(documentShown));
  const ground = useEditor((state) => lamp && state.grounds.get(lamp.id));
  if (!lamp) return null;

  const change = (patch: Partial<Lamp>) => edit(store, { do: 'change', id: lamp.id, patch });
  const coordinate = (field: 'position_m' | 'aim_m', axis: number, value: number) => {
    const point: [number, number, number] = [...lamp[field]];
    point[axis] = value;
    change({ [field]: point });
  };
  const level = lamp.level ?? 1;
  const stand = ground && lamp.stand ? standHeight(lamp, ground.level_m) : null;

  return (
    <section className="panel" aria-label="Chosen lamp">
      <h2>
        <bdi>{lamp.name ?? lamp.id}</bdi>
      </h2>
      {setup !== undefined && (
        <p className="note">
          Changes belong to setup {setup}
          {setupName && (
            <>
              , <bdi>{setupName}</bdi>
            </>
          )}
          ; the base stays as it is.
        </p>
      )}
      {refused && (
        <p className="note" role="status">
          Not changed: {refused}
        </p>
      )}
      <fieldset className="dials">
        <legend className="out-of-sight">Settings</legend>
        <Dial
          label="Level"
          value={level * 100}
          unit="%"
          shown={String(Number((level * 100).toFixed(1)))}
          from={0}
          to={100}
          step={1}
          spoken={`${percentText(level)}, ${stopsText(level)}`}
          beside={stopsText(level)}
          onChange={(percent) => change({ level: Number((percent / 100).toFixed(4)) })}
        />
        <FilterChoice />
        <Dial
          label="Height"
          value={lamp.position_m[1]}
          unit="m"
          from={reach.from_m[1]}
          to={reach.to_m[1]}
          step={0.05}
          beside={lamp.stand && standText(lamp.stand.maxHeight_m, ground)}
          onChange={(y) => coordinate('position_m', 1, y)}
        />
        {stand?.tooHigh && (
          <p className="note">
            Higher than its stand goes ({stand.maxHeight_m} m): {metres(stand.height_m)} over{' '}
            {ground?.on == null ? 'y = 0, as nothing is modelled below it' : <bdi>{ground.on}</bdi>}.
          </p>
        )}
        {([0, 2] as const).map((axis) => (
          <Dial
            key={axis}
            label={`Stand ${AXES[axis]}`}
            value={lamp.position_m[axis]}
            unit="m"
            from={reach.from_m[axis]}
            to={reach.to_m[axis]}
            step={0.05}
            onChange={(value) => coordinate('position_m', axis, value)}
          />
        ))}
        {([0, 1, 2] as const).map((axis) => (
          <Dial
            key={axis}
            label={`Aim ${AXES[axis]}`}
            value={lamp.aim_m[axis]}
            unit="m"
            from={reach.from_m[axis]}
            to={reach.to_m[axis]}
            step={0.05}
            onChange={(value) => coordinate('aim_m', axis, value)}
          />
        ))}
      </fieldset>
    </section>
  );
}

/** The dial counts from y = 0, a stand from what it stands on. */
function standText(highest_m: number, ground: Ground | undefined): string {
  const on_m = Number((ground?.level_m ?? 0).toFixed(2));
  return on_m === 0 ? `stand ${highest_m} m` : `stand ${highest_m} m from ${metres(on_m)}`;
}

function metres(length_m: number): string {
  return `${Number(length_m.toFixed(2))} m`;
}
