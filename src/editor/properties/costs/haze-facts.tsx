import { extinction_per_m, hazeLoss_stops } from '../../../core/haze/extinction.ts';
import { CAUTIONS } from '../../../paperwork/cautions.ts';
import type { HazeSettings } from '../../../scene/schema/document.ts';
import { lengthText } from '../../figures/length-text.ts';
import { edit } from '../../store/edits.ts';
import { documentShown } from '../../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../../store/use-editor.ts';
import { useTaste } from '../desk.tsx';
import { OnOff } from '../fields/switch-row.tsx';
import { Caution, Fact, Facts } from './facts.tsx';

/** Haze of a set that had none: light, a few hundred metres of sight. */
const FIRST_VISIBILITY_m = 800;
const PATHS_m = [10, 25] as const;

/** Haze or none, and what it takes from a lamp. */
export function HazeFacts() {
  const store = useEditorStore();
  const haze = useEditor((state): HazeSettings | undefined => documentShown(state)?.haze);
  const { lengths } = useTaste();
  const change = (on: boolean) =>
    edit(
      store,
      { do: 'change-section', section: 'haze', patch: on ? { visibility_m: FIRST_VISIBILITY_m } : null },
      on ? 'Add haze' : 'Clear the haze',
    );
  return (
    <>
      <div className="field control">
        <span className="field-label">Haze on set</span>
        <OnOff label="Haze on set" on={haze !== undefined} onChange={change} />
      </div>
      {haze && (
        <>
          <Facts>
            {PATHS_m.map((path_m) => (
              <Fact
                key={path_m}
                name={`In ${lengthText(path_m, lengths)}`}
                note={haze.regions ? 'of it, where it hangs' : undefined}
              >
                {'\u2212'}
                {hazeLoss_stops(extinction_per_m(haze.visibility_m), path_m).toFixed(2)} stop
              </Fact>
            ))}
            <Fact name="Extinction" note="known to a factor of two until it is metered">
              {Number(extinction_per_m(haze.visibility_m).toPrecision(2))} per metre
            </Fact>
          </Facts>
          <Caution>{CAUTIONS.haze[0]}</Caution>
        </>
      )}
    </>
  );
}
