import { Tabs } from 'radix-ui';
import { type CSSProperties, memo, useEffect } from 'react';
import { exposureHeading } from '../../paperwork/exposure-sheet.ts';
import type { MeterReport } from '../../scene/meter/meter-scene.ts';
import type { Problem } from '../../scene/problems/problem.ts';
import { FRESHNESS_WORDS } from '../panels/freshness-words.ts';
import { ProblemList } from '../panels/problem-list.tsx';
import { readingFreshness } from '../store/shown-scene.ts';
import { useEditor, useSession } from '../store/use-editor.ts';
import { giveUp } from './find-levels.ts';
import { FreshFigures } from './fresh-figures.tsx';
import { LampKeys } from './lamp-keys.tsx';
import { useLaneSize } from './lane-size.ts';
import { MarkDetail } from './mark-detail.tsx';
import { lampsAlight } from './muting.ts';
import { withoutWords, zeroWords } from './reading-words.ts';
import { RulePlot } from './rule-plot.tsx';
import { NO_RULE_STATE, type RuleState, ruleStore, useRule } from './rule-state.ts';
import { WantedList } from './wanted-list.tsx';
import '../styles/lamp-colours.css';
import '../styles/stop-rule-beside.css';
import '../styles/stop-rule.css';

/** One ruler in stops round the camera's zero, and on it what the meter reads at every mark. */
export function StopRule() {
  const session = useSession();
  const { lane_px } = useLaneSize();
  const openings = useEditor((state) => state.openings);
  const report = useEditor((state) => state.reading?.report ?? null);
  const problems = useEditor((state) => state.reading?.problems);
  const failure = useEditor((state) => state.readingFailure);
  const freshness = useEditor(readingFreshness);
  const unit = useEditor((state) => state.unit);
  useEffect(() => {
    // What was wanted of one scene is nothing to the next.
    if (ruleStore.getState().openings === openings) return;
    giveUp();
    ruleStore.setState({ ...NO_RULE_STATE, openings });
  }, [openings]);

  return (
    <section
      className="panel stop-rule"
      style={{ '--lane': `${lane_px}px` } as CSSProperties}
      aria-label="Stop rule"
      aria-busy={freshness !== 'fresh'}
    >
      <header className="stop-rule-head">
        <h2>Stop rule</h2>
        {report && (
          <p className="quiet">
            <span className="rule-exposure">{exposureHeading(report)} · </span>
            {zeroWords(report.exposure, unit)}
          </p>
        )}
        <MutedWords />
        <p className="freshness">{report && FRESHNESS_WORDS[freshness]}</p>
        <LampKeys />
      </header>
      {failure !== null && (
        <p className="note" role="alert">
          The meter stopped ({failure}). What is shown is not the last word.{' '}
          <button type="button" onClick={() => session.restartReading()}>
            Start again
          </button>
        </p>
      )}
      {report && report.marks.length > 0 ? (
        <div className="stop-rule-parts">
          <RulePlot report={report} />
          <Beside />
        </div>
      ) : (
        <Empty report={report} problems={problems} failed={failure !== null} />
      )}
    </section>
  );
}

const MutedWords = memo(function MutedWords() {
  const lamps = useEditor(lampsAlight);
  const muted = useEditor((state) => state.muted);
  const words = withoutWords(lamps.map(({ id, name }) => ({ name: name ?? id, out: muted.has(id) })));
  return (
    <p className="muted-words" role="status">
      <bdi>{words}</bdi>
    </p>
  );
});

const Beside = memo(function Beside() {
  const tab = useRule((state) => state.tab);
  const wants = useRule((state) => state.wants.size);
  return (
    <Tabs.Root
      className="rule-beside"
      value={tab}
      onValueChange={(value) => ruleStore.setState({ tab: value as RuleState['tab'] })}
    >
      <Tabs.List className="rule-tabs" aria-label="Beside the stop rule">
        <Tabs.Trigger value="mark">Reading</Tabs.Trigger>
        <Tabs.Trigger value="wanted">{wants > 0 ? `Wanted (${wants})` : 'Wanted'}</Tabs.Trigger>
      </Tabs.List>
      <Tabs.Content value="mark" className="rule-tab">
        <Detail />
      </Tabs.Content>
      <Tabs.Content value="wanted" className="rule-tab">
        <WantedList />
      </Tabs.Content>
    </Tabs.Root>
  );
});

/** By itself, so that a new reading draws only its figures anew. */
function Detail() {
  const report = useEditor((state) => state.reading?.report ?? null);
  return (
    report && (
      <FreshFigures>
        <MarkDetail report={report} />
      </FreshFigures>
    )
  );
}

/** With nothing to read: what is missing, and what it is for. */
function Empty({
  report,
  problems,
  failed,
}: {
  readonly report: MeterReport | null;
  readonly problems: readonly Problem[] | undefined;
  readonly failed: boolean;
}) {
  if (report) {
    return (
      <div className="rule-empty">
        <p>Nowhere is the meter held yet.</p>
        <p className="quiet">
          Add a mark where you would hold it: at a face with the dome to the camera, behind a shoulder with a
          flat receptor to the rim lamp, on the ground where a shaft should land. Each mark becomes a needle
          on this ruler, as many stops from the camera's zero as the meter would say, and shows which lamp
          gives how much of it.
        </p>
      </div>
    );
  }
  if (!problems) return failed ? null : <p className="rule-empty quiet">Metering…</p>;
  return (
    <div className="rule-empty" role="alert">
      <p>There is nothing to count stops from, or this scene cannot be metered as it stands.</p>
      <ProblemList problems={problems} />
    </div>
  );
}
