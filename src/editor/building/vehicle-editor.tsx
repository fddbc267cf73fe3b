import { ToggleGroup } from 'radix-ui';
import { useMemo, useState } from 'react';
import type { Side } from '../../core/geometry/vehicle-spec.ts';
import {
  newRun,
  type RunKind,
  type RunPlace,
  runAt,
  withoutRun,
  withRun,
} from '../../scene/building/opening-runs.ts';
import type { Solid, VehicleSolid } from '../../scene/schema/solid.ts';
import { DeskProvider, useNewDesk } from '../properties/desk.tsx';
import { FieldList } from '../properties/fields/field-list.tsx';
import { edit } from '../store/edits.ts';
import { documentShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { ChooseOne } from './choose-one.tsx';
import { vehicleChosen } from './chosen-of.ts';
import { openingFields } from './opening-fields.ts';
import { VehicleDrawing } from './vehicle-drawing.tsx';

const NO_SOLIDS: readonly Solid[] = [];
const SIDE_WORDS: Readonly<Record<Side, string>> = {
  right: 'Right',
  left: 'Left',
  front: 'Front',
  back: 'Back',
};
const SIDES = Object.keys(SIDE_WORDS) as Side[];
const KIND_WORDS: Readonly<Record<RunKind, string>> = { windows: 'Row of windows', doors: 'Door' };

/** The windows and doors of a vehicle, on a drawing of its sides. */
export function VehicleEditor() {
  const vehicle = useEditor(vehicleChosen);
  const solids = useEditor((state) => documentShown(state)?.solids ?? NO_SOLIDS);
  if (!vehicle)
    return (
      <ChooseOne
        word="vehicle"
        things={solids.filter(({ shape }) => shape === 'vehicle')}
        first="solid:bus"
        why="It is a glossy side to keep glints off, and windows to light through."
      />
    );
  return <OneVehicle key={vehicle.id} vehicle={vehicle} />;
}

function OneVehicle({ vehicle }: { readonly vehicle: VehicleSolid }) {
  const store = useEditorStore();
  const [side, setSide] = useState<Side>('right');
  const [chosen, setChosen] = useState<RunPlace | null>(null);
  const [noRoom, setNoRoom] = useState<string | null>(null);
  const refused = useEditor((state) => state.refusedEdit);
  const { id, name } = vehicle;
  // Undo may have taken the row away, and another side may have been turned to.
  const place = chosen && runAt(vehicle, chosen)?.side === side ? chosen : null;
  const change = (patch: object, step: string) => edit(store, { do: 'change', id, patch }, step);

  const add = (kind: RunKind) => {
    const run = newRun(vehicle, kind, side, 'clear-glass');
    const word = kind === 'windows' ? 'windows' : 'a door';
    setNoRoom(run ? null : `No room is left for ${word} on this side: narrow or move what is there.`);
    if (!run) return;
    if (change(withRun(vehicle, kind, run), `Add ${word} to ${name ?? id}`))
      setChosen({ kind, index: vehicle[kind]?.length ?? 0 });
  };
  const remove = ({ kind, index }: RunPlace) => {
    setChosen(null);
    change(withoutRun(vehicle, { kind, index }), `Take ${kind} out of ${name ?? id}`);
  };

  return (
    <div className="vehicle-editor">
      <h3>
        <bdi>{name ?? id}</bdi>
      </h3>
      <ToggleGroup.Root
        type="single"
        className="manner-choice"
        aria-label="Side of the vehicle"
        value={side}
        onValueChange={(value) => {
          if (value !== '') setSide(value as Side);
          setNoRoom(null);
        }}
      >
        {SIDES.map((one) => (
          <ToggleGroup.Item key={one} value={one}>
            {SIDE_WORDS[one]}
          </ToggleGroup.Item>
        ))}
      </ToggleGroup.Root>
      <VehicleDrawing vehicle={vehicle} side={side} chosen={place} onChoose={setChosen} />
      <p className="quiet">
        Drag the first of a row to move the row, another to space it, the knobs to size it; arrow keys move it
        too.
      </p>
      <div className="vehicle-buttons">
        <button type="button" onClick={() => add('windows')}>
          Add windows
        </button>
        <button type="button" onClick={() => add('doors')}>
          Add a door
        </button>
      </div>
      {(noRoom ?? refused) && (
        <p className="note" role="status">
          {noRoom ?? `Not changed: ${refused}`}
        </p>
      )}
      {place ? (
        <RunFields
          key={`${place.kind} ${place.index}`}
          id={id}
          place={place}
          onRemove={() => remove(place)}
        />
      ) : (
        <p className="quiet">Choose a window or a door to set its measures.</p>
      )}
    </div>
  );
}

interface RunFieldsProps {
  readonly id: string;
  readonly place: RunPlace;
  readonly onRemove: () => void;
}

function RunFields({ id, place: { kind, index }, onRemove }: RunFieldsProps) {
  const ids = useMemo(() => [id], [id]);
  const desk = useNewDesk(ids, 'solids');
  const under = useMemo(() => [kind, index], [kind, index]);
  return (
    <DeskProvider value={desk}>
      <div className="run-title">
        <h4>
          {KIND_WORDS[kind]} {index + 1}
        </h4>
        <button type="button" onClick={onRemove}>
          Take out
        </button>
      </div>
      {desk.refused && (
        <p className="note" role="status">
          {desk.refused}
        </p>
      )}
      <div className="properties">
        <FieldList fields={openingFields(kind)} under={under} />
      </div>
    </DeskProvider>
  );
}
