import { extinction_per_m, hazeLoss_stops } from '../../core/haze/extinction.ts';
import { edit } from '../store/edits.ts';
import { documentShown, setupShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { Dial } from './dial.tsx';

/** Haze of a set that had none: light, a few hundred metres of sight. */
const FIRST_VISIBILITY_m = 800;
const REFERENCE_m = 10;

/** How far one sees through the haze, and what that takes from a lamp. */
export function HazeControls() {
  const store = useEditorStore();
  const haze = useEditor((state) => documentShown(state)?.haze);
  const locked = useEditor((state) => setupShown(state) !== undefined);
  const change = (patch: object | null) => edit(store, { do: 'change-section', section: 'haze', patch });

  return (
    <section className="panel" aria-label="Haze">
      <h2 className="with-switch">
        Haze
        <button
          type="button"
          role="switch"
          className="switch"
          aria-checked={haze !== undefined}
          aria-label="Haze on"
          disabled={locked}
          onClick={() => change(haze ? null : { visibility_m: FIRST_VISIBILITY_m })}
        >
          {haze ? 'On' : 'Off'}
        </button>
      </h2>
      {haze && (
        <fieldset disabled={locked} className="dials">
          <legend className="out-of-sight">Haze</legend>
          <Dial
            label="Visibility"
            value={haze.visibility_m}
            unit="m"
            shown={String(Number(haze.visibility_m.toFixed(1)))}
            from={50}
            to={3000}
            step={10}
            onChange={(visibility_m) => change({ visibility_m: Math.max(0.1, visibility_m) })}
          />
          <p className="quiet">
            Takes {hazeLoss_stops(extinction_per_m(haze.visibility_m), REFERENCE_m).toFixed(2)} stop from a
            lamp in {REFERENCE_m} m{haze.regions ? ` of it, in ${inBoxes(haze.regions.length)} only` : ''}.
            Known to a factor of two until it is metered.
          </p>
        </fieldset>
      )}
    </section>
  );
}

function inBoxes(count: number): string {
  return count === 1 ? 'one box' : `${count} boxes`;
}
