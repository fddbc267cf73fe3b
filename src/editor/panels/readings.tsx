import { readingFreshness } from '../store/shown-scene.ts';
import { useEditor, useEditorStore, useSession } from '../store/use-editor.ts';
import { FRESHNESS_WORDS } from './freshness-words.ts';
import { ProblemList } from './problem-list.tsx';
import { ReadingsTable } from './readings-table.tsx';
import { UnitChoice } from './unit-choice.tsx';
import { useSheet } from './use-sheet.ts';

/** What the meter reads at every mark, in the words and digits of the exposure sheet. */
export function Readings() {
  const session = useSession();
  const store = useEditorStore();
  const reading = useEditor((state) => state.reading);
  const failure = useEditor((state) => state.readingFailure);
  const freshness = useEditor(readingFreshness);
  const unit = useEditor((state) => state.unit);
  const shown = useSheet();

  return (
    <section className="panel readings" aria-label="Readings" aria-busy={freshness !== 'fresh'}>
      <header className="readings-head">
        <h2>Readings</h2>
        <p className="quiet heading" data-testid="exposure-heading">
          {shown?.sheet.heading}
        </p>
        <p className="freshness" data-testid="freshness">
          {shown && FRESHNESS_WORDS[freshness]}
        </p>
        <UnitChoice unit={unit} onChange={(chosen) => store.setState({ unit: chosen })} />
      </header>
      {failure !== null && (
        <div className="note" role="alert">
          <p>The meter stopped ({failure}). What is shown is not the last word.</p>
          <button type="button" onClick={() => session.restartReading()}>
            Start again
          </button>
        </div>
      )}
      {reading && !shown && (
        <div className="note" role="alert">
          <p>This scene cannot be metered as it stands.</p>
          <ProblemList problems={reading.problems} />
        </div>
      )}
      {!reading && failure === null && <p className="quiet">Metering…</p>}
      {shown && reading && (
        <div
          className={`figures ${freshness}`}
          data-testid="figures"
          data-state={freshness}
          data-reading-ms={reading.latency_ms.toFixed(1)}
        >
          {shown.sheet.rows.length === 0 ? (
            <p className="quiet">No marks: nowhere in this scene is the meter held.</p>
          ) : (
            <ReadingsTable {...shown} />
          )}
        </div>
      )}
    </section>
  );
}
