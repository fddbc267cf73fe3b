import { useId, useMemo, useState } from 'react';
import { walkSheet } from '../../paperwork/walk-sheet.ts';
import { WALKER } from '../../scene/schema/path.ts';
import type { WalkReport } from '../../scene/walk/walk-report.ts';
import { nameOfThing } from '../store/name-of-step.ts';
import { documentShown } from '../store/shown-scene.ts';
import { useEditor } from '../store/use-editor.ts';
import { AnswerPanel } from './answer-panel.tsx';
import { Findings } from './findings.tsx';
import { useLacking } from './lacking.ts';
import { NumberSetting } from './number-setting.tsx';
import { SheetRows } from './sheet-rows.tsx';
import { useAnswer, useAsked } from './use-answers.ts';
import { WalkChart } from './walk-chart.tsx';

/** Someone who walks through the light, second by second. */
export function Walk() {
  const inUse = useAnswer('walk');
  const [asked, ask] = useAsked('walk');
  const report = inUse.shown?.answer;
  const document = useEditor(documentShown);
  const sheet = useMemo(
    () => report && walkSheet(report, (id) => (document ? nameOfThing(document, id) : id)),
    [report, document],
  );
  return (
    <AnswerPanel
      name="Walk"
      kind="walk"
      inUse={inUse}
      heading={sheet?.heading}
      lacking={useLacking('walk')}
      settings={
        <div className="answer-settings">
          <PathChoice path={asked.path} onChange={(path) => ask({ path })} />
          <NumberSetting
            label="Film rate"
            unit="fps"
            value={asked.rate_fps}
            usual={asked.rate_fps === undefined && report ? String(report.rate_fps) : '25 or 24'}
            from={1}
            to={10_000}
            onChange={(rate_fps) => ask({ rate_fps })}
          />
        </div>
      }
      conventions={sheet?.footer}
    >
      {report && sheet && (
        <>
          <Strip report={report} rows={sheet.strip} />
          <Findings sentences={sheet.findings} label="Brightest, darkest, shadows, blur" />
          <details className="answer-part">
            <summary>Every step</summary>
            <SheetRows caption="Every step of the walk" rows={withoutStrip(sheet.strip)} leftColumns={0} />
          </details>
        </>
      )}
    </AnswerPanel>
  );
}

/** The column that draws the stops in letters: the chart does it better. */
const STRIP_COLUMN = 4;

function withoutStrip(rows: readonly (readonly string[])[]): string[][] {
  return rows.map((cells) => cells.toSpliced(STRIP_COLUMN, 1));
}

interface StripProps {
  readonly report: WalkReport;
  readonly rows: readonly (readonly string[])[];
}

/** The chart, and one moment of it in figures. */
function Strip({ report, rows }: StripProps) {
  const field = useId();
  const [at, setAt] = useState(0);
  const step = Math.min(at, report.steps.length - 1);
  const head = withoutStrip([rows[0]!])[0]!;
  const cells = withoutStrip([rows[step + 1]!])[0]!;
  return (
    <>
      <WalkChart report={report} step={step} onStep={setAt} />
      <div className="walk-moment">
        <label htmlFor={field}>Moment</label>
        <input
          id={field}
          type="range"
          min={0}
          max={report.steps.length - 1}
          value={step}
          aria-valuetext={`${cells[0]} s: ${cells[3]} stops`}
          onChange={({ target }) => setAt(target.valueAsNumber)}
        />
        <output htmlFor={field}>{cells[0]} s</output>
      </div>
      <SheetRows caption={`At ${cells[0]} s`} rows={[head, cells]} leftColumns={0} />
    </>
  );
}

interface PathChoiceProps {
  readonly path: string | undefined;
  readonly onChange: (path: string) => void;
}

function PathChoice({ path, onChange }: PathChoiceProps) {
  const field = useId();
  const document = useEditor(documentShown);
  const figures = document?.figures ?? [];
  const walked = (document?.paths ?? []).filter(
    ({ of }) => of === WALKER || figures.some(({ id }) => id === of),
  );
  return (
    <div className="number-setting">
      <label htmlFor={field}>Path</label>
      <select id={field} value={path ?? walked[0]?.id} onChange={({ target }) => onChange(target.value)}>
        {walked.map(({ id, name }) => (
          <option key={id} value={id}>
            {name ?? id}
          </option>
        ))}
      </select>
    </div>
  );
}
