import { useMemo } from 'react';
import { riggingSheet } from '../../paperwork/rigging-sheet.ts';
import type { RiggingReport } from '../../scene/rigging/rigging-scene.ts';
import { edit } from '../store/edits.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { AnswerPanel } from './answer-panel.tsx';
import { Findings } from './findings.tsx';
import { useLacking } from './lacking.ts';
import { LampChoice } from './lamp-choice.tsx';
import { NumberSetting } from './number-setting.tsx';
import { SheetRows } from './sheet-rows.tsx';
import { useAnswer, useAsked } from './use-answers.ts';

/** Whether stands reach, and what wind tips them: a screen, never a judgement. */
export function Stands() {
  const inUse = useAnswer('stands');
  const [asked, ask] = useAsked('stands');
  const siteWind = useEditor((state) => state.scene?.document.site?.wind);
  const report = inUse.shown?.answer;
  const sheet = useMemo(() => report && riggingSheet(report), [report]);
  const usual = siteWind?.gust_m_s ?? siteWind?.speed_m_s;
  return (
    <AnswerPanel
      name="Stands in wind"
      kind="stands"
      inUse={inUse}
      heading={sheet?.heading}
      lacking={useLacking('stands')}
      settings={
        <div className="answer-settings">
          <NumberSetting
            label="Wind"
            unit="m/s"
            value={asked.wind_m_s}
            usual={usual === undefined ? 'not given' : String(usual)}
            from={0}
            to={60}
            onChange={(wind_m_s) => ask({ wind_m_s })}
          />
        </div>
      }
      cautions={sheet?.cautions.slice(1)}
      conventions={sheet?.footer}
    >
      {report && sheet && (
        <>
          <Findings worst sentences={sheet.warnings} label="What fails or cannot be told" />
          <TippingBars report={report} stale={inUse.freshness !== 'fresh'} />
          <Findings sentences={sheet.findings.slice(sheet.warnings.length)} label="What is to be known" />
          {sheet.tables.map(({ rows, leftColumns }) => (
            <SheetRows
              key="stands"
              caption="Stands, heights and ballast"
              rows={rows.map(answerBesideName)}
              leftColumns={leftColumns + 1}
              isFault={(row) => report.stands[row]!.fails}
            />
          ))}
        </>
      )}
    </AnswerPanel>
  );
}

/** The answer comes last on the sheet, where a narrow panel would hide it. */
function answerBesideName(cells: readonly string[]): string[] {
  const [name, ...rest] = cells;
  return [name!, rest.at(-1)!, ...rest.slice(0, -1)];
}

/** The bars reach to half as much again as the wind that is asked about, and never to less than a gale. */
const GALE_m_s = 20;

/** In which wind each begins to tip, the first to go first, against the wind that is asked about. */
function TippingBars({ report, stale }: { readonly report: RiggingReport; readonly stale: boolean }) {
  const { stands, wind } = report;
  const known = stands.filter((stand) => stand.tipsAt_m_s !== null);
  if (known.length === 0) return null;
  const end_m_s = Math.max(GALE_m_s, 1.5 * (wind.speed_m_s ?? 0));
  const sorted = [...known].sort((a, b) => a.tipsAt_m_s! - b.tipsAt_m_s!);
  return (
    <ul className="tipping-bars" aria-label="Wind in which each begins to tip">
      {sorted.map(({ id, name, tips, tipsAt_m_s, neededBallast_kg, ballast_kg }) => (
        <li key={id} className={tips ? 'fault' : ''}>
          <LampChoice id={id} name={name} />
          <span className="tipping-bar" aria-hidden="true">
            <span style={{ width: `${Math.min(100, (100 * tipsAt_m_s!) / end_m_s)}%` }} />
            {wind.speed_m_s !== null && <i style={{ left: `${(100 * wind.speed_m_s) / end_m_s}%` }} />}
          </span>
          <span className="figure">from {tipsAt_m_s!.toFixed(1)} m/s</span>
          {tips && neededBallast_kg !== null && neededBallast_kg > ballast_kg && (
            <Ballast id={id} name={name} needed_kg={Math.ceil(neededBallast_kg - 1e-6)} stale={stale} />
          )}
        </li>
      ))}
    </ul>
  );
}

interface BallastProps {
  readonly id: string;
  readonly name: string;
  readonly needed_kg: number;
  readonly stale: boolean;
}

function Ballast({ id, name, needed_kg, stale }: BallastProps) {
  const store = useEditorStore();
  return (
    <button
      type="button"
      disabled={stale}
      aria-label={`${name}: ballast ${needed_kg} kg, which leaves no margin`}
      onClick={() =>
        edit(
          store,
          { do: 'change', id, patch: { stand: { ballast_kg: needed_kg } } },
          `Ballast of ${name} to ${needed_kg} kg`,
        )
      }
    >
      Ballast {needed_kg} kg, no margin
    </button>
  );
}
