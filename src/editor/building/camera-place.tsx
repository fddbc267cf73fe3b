import { useId, useState } from 'react';
import { CAMERA_SIDES, type CameraSide, makeCameraOn } from '../../scene/building/make-camera.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';
import { lengthFromText, lengthText } from '../figures/length-text.ts';
import { Pick } from '../properties/fields/pick.tsx';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { HandNotice } from './hand-notice.tsx';
import { startPlacing } from './placing.ts';
import { recipeNamed } from './put-in-place.ts';
import { surroundingsShown } from './surroundings-shown.ts';
import { takeUp } from './take-up.ts';
import { useResting } from './use-resting.ts';

const NEAREST_m = 0.5;
const FARTHEST_m = 500;

/** Stand here, look there: by two presses on the plan, or by choosing what is looked at, from where. */
export function CameraPlace() {
  const store = useEditorStore();
  const field = useId();
  const surroundings = useResting(surroundingsShown);
  const lengths = useEditor((state) => state.lengths);
  const [wanted, setWanted] = useState<string | null>(null);
  const [side, setSide] = useState<CameraSide>('three-quarter left');
  const [distance_m, setDistance] = useState(6);
  const [draft, setDraft] = useState<string | null>(null);
  if (!surroundings) return null;

  const things = thingsToLookAt(surroundings.document);
  const lookedAt =
    things.find(({ id }) => id === wanted) ??
    things.find(({ id }) => id === surroundings.chosen.at(-1)) ??
    things[0];
  const typed_m = draft === null ? distance_m : lengthFromText(draft, lengths);
  const good = typed_m !== null && typed_m >= NEAREST_m && typed_m <= FARTHEST_m;
  const takeDistance = () => {
    if (good) setDistance(typed_m);
    if (good) setDraft(null);
  };
  const stand = () => {
    if (!lookedAt || !good) return;
    takeDistance();
    const made = makeCameraOn(surroundings, lookedAt.id, side, typed_m);
    if (made) takeUp(store, made);
  };
  const place = () => {
    const recipe = recipeNamed(store, 'camera');
    if (recipe) startPlacing(store, recipe);
  };

  return (
    <div className="camera-place">
      <HandNotice />
      <h3>By two presses</h3>
      <p className="quiet">The first on the plan stands the camera, the second is where it looks.</p>
      <button type="button" onClick={place}>
        Stand here, look there…
      </button>
      <h3>By what it looks at</h3>
      {lookedAt ? (
        <form
          className="camera-on"
          onSubmit={(event) => {
            event.preventDefault();
            stand();
          }}
        >
          <span className="camera-word">Looks at</span>
          <Pick
            label={`Looks at ${lookedAt.name}`}
            shown={<bdi>{lookedAt.name}</bdi>}
            chosen={lookedAt.id}
            options={() => things.map(({ id, name, kind }) => ({ value: id, name, note: kind }))}
            onPick={setWanted}
          />
          <label htmlFor={`${field}-side`}>From its</label>
          <select
            id={`${field}-side`}
            value={side}
            onChange={({ target }) => setSide(target.value as CameraSide)}
          >
            {CAMERA_SIDES.map((one) => (
              <option key={one} value={one}>
                {one}
              </option>
            ))}
          </select>
          <label htmlFor={`${field}-distance`}>At</label>
          <span className="typed">
            <input
              id={`${field}-distance`}
              type="text"
              autoComplete="off"
              spellCheck={false}
              value={draft ?? lengthText(distance_m, lengths)}
              aria-invalid={!good}
              aria-describedby={`${field}-wrong`}
              onChange={({ target }) => setDraft(target.value)}
              onBlur={takeDistance}
            />
          </span>
          <p className="quiet camera-wrong" id={`${field}-wrong`} role="status">
            {good
              ? ''
              : `Type a distance from ${lengthText(NEAREST_m, lengths)} to ${lengthText(FARTHEST_m, lengths)}, such as ${lengthText(6, lengths)}.`}
          </p>
          <button type="submit" disabled={!good}>
            Stand the camera there
          </button>
          <p className="quiet camera-note">
            Its lens stands 1.5 m over the ground; exposure is that of the camera now looked through.
          </p>
        </form>
      ) : (
        <p className="quiet">
          Nothing to look at yet. Add a figure, a mark or something of the set first; or stand the camera by
          two presses.
        </p>
      )}
    </div>
  );
}

interface LookedAt {
  readonly id: string;
  readonly name: string;
  readonly kind: string;
}

/** Faces first, since they are what is mostly looked at. */
function thingsToLookAt({ figures, marks, solids, lamps }: SceneDocument): LookedAt[] {
  const named = (things: readonly { id: string; name?: string | undefined }[] | undefined, kind: string) =>
    (things ?? []).map(({ id, name }) => ({ id, name: name ?? id, kind }));
  return [
    ...named(figures, 'figure'),
    ...named(marks, 'mark'),
    ...named(solids, 'set'),
    ...named(lamps, 'lamp'),
  ];
}
