import { type FormEvent, useId, useState } from 'react';
import type { FaceShape } from '../../scene/schema/head.ts';
import { lengthFromText, lengthText } from '../figures/length-text.ts';
import { numberFromText } from '../figures/number-text.ts';
import { nameOfThing } from '../store/name-of-step.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import type { PhotometricFileBrought } from './documents-state.ts';
import { faceOf, headFrom, LIGHT_KINDS, type LightKind, takeHead } from './head-from-file.ts';
import type { PhotometrySummary } from './photometry-summary.ts';

interface HeadFormProps {
  readonly file: PhotometricFileBrought;
  readonly summary: PhotometrySummary;
  readonly lampSet: number;
  readonly onDone: () => void;
}

const LONGEST_NAME = 60;

/** What the file does not say, and which lamp is to have it. */
export function HeadForm({ file, summary, lampSet, onDone }: HeadFormProps) {
  const store = useEditorStore();
  const lengths = useEditor((state) => state.lengths);
  const lamp = useEditor((state) => (state.lamp && state.chosen.includes(state.lamp) ? state.lamp : null));
  const lampName = useEditor((state) => (lamp && state.scene ? nameOfThing(state.scene.document, lamp) : ''));
  const face = faceOf(summary);
  const sides = face.shape === 'rectangle' ? face.size_m : [face.diameter_m];
  const [name, setName] = useState(() => nameFor(file.name, summary));
  const [light, setLight] = useState<LightKind>('led');
  const [kelvin, setKelvin] = useState('5600');
  const [watts, setWatts] = useState(summary.inputPower_W === null ? '' : String(summary.inputPower_W));
  const asStated = sides.map((side_m) => lengthText(side_m, lengths));
  const [sizes, setSizes] = useState(asStated);
  const [forLamp, setForLamp] = useState(lamp);
  const [refused, setRefused] = useState<string | null>(null);
  const group = useId();

  const take = (event: FormEvent) => {
    event.preventDefault();
    const cct_K = numberFromText(kelvin.replace(/K$/i, ''));
    const input_W = watts.trim() === '' ? null : numberFromText(watts.replace(/W$/i, ''));
    // What was not touched stays what the file states, whatever its text was rounded to.
    const sizes_m = sizes.map((text, i) =>
      text === asStated[i] ? sides[i]! : lengthFromText(text, lengths),
    );
    if (cct_K === null) return setRefused('Colour: a figure in kelvin, such as 5600.');
    if (watts.trim() !== '' && input_W === null) return setRefused('Draws: a figure in watts, or nothing.');
    if (sizes_m.some((size) => size === null)) return setRefused('Face: its size, such as 30cm or 1ft.');
    const text = new TextDecoder('latin1').decode(file.bytes);
    const choices = {
      name: name.trim() || file.name,
      light,
      cct_K,
      face: sized(face, sizes_m as number[]),
      input_W,
      lampSet,
    };
    if (takeHead(store, headFrom(file.name, text, choices), forLamp)) onDone();
    else setRefused(store.getState().refusedEdit);
  };

  return (
    <form onSubmit={take}>
      <fieldset className="dialog-fields">
        <legend>Not in the file, or to be checked</legend>
        <Field label="Name" value={name} onChange={setName} />
        <label className="dialog-field">
          Kind of light
          <select value={light} onChange={({ target }) => setLight(target.value as LightKind)}>
            {Object.entries(LIGHT_KINDS).map(([kind, words]) => (
              <option key={kind} value={kind}>
                {words}
              </option>
            ))}
          </select>
        </label>
        <Field label="Colour, K" value={kelvin} onChange={setKelvin} />
        <Field label="Draws, W" value={watts} onChange={setWatts} />
        {sizes.map((size, i) => (
          <Field
            // biome-ignore lint/suspicious/noArrayIndexKey: the first side is the first side
            key={i}
            label={sizes.length === 1 ? 'Face, across' : i === 0 ? 'Face, width' : 'Face, height'}
            value={size}
            onChange={(typed) => setSizes(sizes.with(i, typed))}
          />
        ))}
      </fieldset>
      <fieldset className="dialog-choices">
        <legend>For</legend>
        {lamp && (
          <Choice group={group} chosen={forLamp === lamp} onChoose={() => setForLamp(lamp)}>
            {lampName}
          </Choice>
        )}
        <Choice group={group} chosen={forLamp === null} onChoose={() => setForLamp(null)}>
          a new lamp
        </Choice>
      </fieldset>
      {refused && (
        <p className="note" role="alert">
          {refused}
        </p>
      )}
      <div className="dialog-buttons">
        <button type="button" onClick={onDone}>
          Leave it
        </button>
        <button type="submit" className="first-choice">
          Take it in
        </button>
      </div>
    </form>
  );
}

interface FieldProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
}

function Field({ label, value, onChange }: FieldProps) {
  return (
    <label className="dialog-field">
      {label}
      <input type="text" autoComplete="off" value={value} onChange={({ target }) => onChange(target.value)} />
    </label>
  );
}

interface ChoiceProps {
  readonly group: string;
  readonly chosen: boolean;
  readonly onChoose: () => void;
  readonly children: string;
}

function Choice({ group, chosen, onChoose, children }: ChoiceProps) {
  return (
    <label>
      <input type="radio" name={group} checked={chosen} onChange={onChoose} /> <bdi>{children}</bdi>
    </label>
  );
}

/** The lamp's own name where the file has one that fits, else the file's. */
function nameFor(fileName: string, { luminaire }: PhotometrySummary): string {
  const [line = ''] = luminaire.split('\n');
  const plain = line.replace(/\p{Cc}/gu, ' ').trim();
  return (plain || fileName.replace(/\.[^.]*$/, '')).slice(0, LONGEST_NAME);
}

function sized(face: FaceShape, sizes_m: readonly number[]): FaceShape {
  const [first = 0, second = first] = sizes_m;
  return face.shape === 'rectangle'
    ? { shape: 'rectangle', size_m: [first, second] }
    : { shape: face.shape, diameter_m: first };
}
