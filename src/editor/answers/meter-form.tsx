import { useId, useState } from 'react';
import { readingText } from '../../paperwork/exposure-sheet.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';
import { LampBadge } from '../figures/lamp-badge.tsx';
import { lampSign } from '../figures/lamp-colour.ts';
import { QUANTITIES } from '../figures/quantity.ts';
import { edit } from '../store/edits.ts';
import { nameOfThing } from '../store/name-of-step.ts';
import { cameraShown, documentShown, lampChosen, setupShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { type MeterEntry, meteredOf, readingCommand } from './meter-entry.ts';

const TENTHS = Array.from({ length: 10 }, (_, tenth) => tenth);

/** Takes one reading down: where, with which lamps alight, and what the meter showed. */
export function MeterForm({ document }: { readonly document: SceneDocument }) {
  const store = useEditorStore();
  const id = useId();
  const unit = useEditor((state) => state.unit);
  const lengths = useEditor((state) => state.lengths);
  const shown = useEditor(documentShown) ?? document;
  const setup = useEditor(setupShown);
  const camera = useEditor(cameraShown);
  const marks = document.marks ?? [];
  const lamps = document.lamps ?? [];
  const lampAlone = useEditor(lampChosen);
  const [typed, setTyped] = useState<Partial<MeterEntry>>({});
  const mark = marks.find((one) => one.id === typed.mark) ?? marks[0];
  const entry: MeterEntry = {
    lamps: shown.lamps?.filter(({ on = true }) => on).map((lamp) => lamp.id) ?? [],
    receptor: mark?.receptor ?? 'dome',
    shows: 'light',
    light: '',
    fNumber: '',
    tenths: 0,
    shutter: camera ? QUANTITIES.shutter.text(camera.shutter_s, { unit, lengths }) : '1/50',
    iso: String(camera?.iso ?? 800),
    ...typed,
    mark: mark?.id ?? '',
    unit,
  };
  const set = (part: Partial<MeterEntry>) => setTyped({ ...typed, ...part });
  const alight = entry.lamps.filter((lamp) => lamps.some((one) => one.id === lamp));
  const metered = meteredOf(entry, document);
  const ready = metered.illuminance_lx !== undefined && alight.length > 0 && mark !== undefined;
  const take = () => {
    if (metered.illuminance_lx === undefined || !mark) return;
    const command = readingCommand(document, shown, { ...entry, lamps: alight }, metered.illuminance_lx);
    const where = nameOfThing(document, mark.id);
    if (edit(store, command, `Reading at ${where}`)) set({ light: '', fNumber: '', tenths: 0 });
  };
  const switchLamp = (lamp: string, on: boolean) =>
    set({ lamps: on ? [...alight, lamp] : alight.filter((one) => one !== lamp) });

  return (
    <form
      className="meter-form"
      aria-label="Take a reading down"
      onSubmit={(event) => {
        event.preventDefault();
        take();
      }}
    >
      <div className="answer-settings">
        <div className="number-setting">
          <label htmlFor={`${id}-mark`}>Read at</label>
          <select
            id={`${id}-mark`}
            value={entry.mark}
            onChange={({ target }) => setTyped({ ...typed, mark: target.value })}
          >
            {marks.map(({ id: value, name }) => (
              <option key={value} value={value}>
                {name ?? value}
              </option>
            ))}
          </select>
        </div>
        <div className="number-setting">
          <label htmlFor={`${id}-receptor`}>Receptor</label>
          <select
            id={`${id}-receptor`}
            value={entry.receptor}
            onChange={({ target }) => set({ receptor: target.value as MeterEntry['receptor'] })}
          >
            <option value="dome">dome</option>
            <option value="flat">flat</option>
          </select>
        </div>
        <div className="number-setting">
          <label htmlFor={`${id}-shows`}>Meter shows</label>
          <select
            id={`${id}-shows`}
            value={entry.shows}
            onChange={({ target }) => set({ shows: target.value as MeterEntry['shows'] })}
          >
            <option value="light">{unit === 'fc' ? 'foot-candles' : 'lux'}</option>
            <option value="f-number">an f-number</option>
          </select>
        </div>
        {entry.shows === 'light' ? (
          <EntryField label="Reading" unit={unit} value={entry.light} onChange={(light) => set({ light })} />
        ) : (
          <>
            <EntryField
              label="f-number"
              unit=""
              value={entry.fNumber}
              onChange={(fNumber) => set({ fNumber })}
            />
            <div className="number-setting">
              <label htmlFor={`${id}-tenths`}>and tenths</label>
              <select
                id={`${id}-tenths`}
                value={entry.tenths}
                onChange={({ target }) => set({ tenths: Number(target.value) })}
              >
                {TENTHS.map((tenth) => (
                  <option key={tenth}>{tenth}</option>
                ))}
              </select>
            </div>
            <EntryField
              label="at shutter"
              unit="s"
              value={entry.shutter}
              onChange={(shutter) => set({ shutter })}
            />
            <EntryField label="at ISO" unit="" value={entry.iso} onChange={(iso) => set({ iso })} />
          </>
        )}
      </div>
      <fieldset className="lamps-alight">
        <legend>Alight when it was read</legend>
        {lamps.map(({ id: lamp, name }) => (
          <label key={lamp}>
            <input
              type="checkbox"
              checked={alight.includes(lamp)}
              onChange={({ target }) => switchLamp(lamp, target.checked)}
            />
            <LampBadge sign={lampSign(document, lamp)} size_px={22} />
            <bdi>{name ?? lamp}</bdi>
          </label>
        ))}
        {lampAlone && (
          <button type="button" onClick={() => set({ lamps: [lampAlone.id] })}>
            Only <bdi>{lampAlone.name ?? lampAlone.id}</bdi>
          </button>
        )}
      </fieldset>
      {setup !== undefined && (
        <p className="note">
          Readings belong to the base. The lamps count as they stand in this setup; its haze and bodies do
          not.
        </p>
      )}
      <div className="take-down">
        <output>{wordsOf(entry, metered, alight.length, unit)}</output>
        <button type="submit" disabled={!ready}>
          Take it down
        </button>
      </div>
    </form>
  );
}

function wordsOf(
  { receptor }: MeterEntry,
  metered: ReturnType<typeof meteredOf>,
  alight: number,
  unit: MeterEntry['unit'],
): string {
  if (alight === 0) return 'Say which lamps were alight: at least one.';
  if (metered.illuminance_lx === undefined)
    return metered.wrong || 'Meter one lamp alone where you can: it tells most.';
  return `${readingText(metered.illuminance_lx, unit)} ${unit} on the ${receptor}, ±0.1 stop, of ${alight === 1 ? 'one lamp alone' : `${alight} lamps together`}.`;
}

interface EntryFieldProps {
  readonly label: string;
  readonly unit: string;
  readonly value: string;
  readonly onChange: (text: string) => void;
}

function EntryField({ label, unit, value, onChange }: EntryFieldProps) {
  const field = useId();
  return (
    <div className="number-setting">
      <label htmlFor={field}>{label}</label>
      <span className="typed">
        <input
          id={field}
          type="text"
          inputMode="decimal"
          autoComplete="off"
          value={value}
          onChange={({ target }) => onChange(target.value)}
        />
        <span className="setting-unit" aria-hidden="true">
          {unit}
        </span>
      </span>
    </div>
  );
}
