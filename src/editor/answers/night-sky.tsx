import { useMemo } from 'react';
import { nightSheet } from '../../paperwork/night-sheet.ts';
import { DEFAULT_UNDER_STOPS } from '../../scene/night/night-report.ts';
import { AnswerPanel } from './answer-panel.tsx';
import { Findings } from './findings.tsx';
import { useLacking } from './lacking.ts';
import { NightChart } from './night-chart.tsx';
import { NumberSetting } from './number-setting.tsx';
import { SheetRows } from './sheet-rows.tsx';
import { useAnswer, useAsked } from './use-answers.ts';

/** Sun, moon and twilight of the scene's night, and when it is dark enough. */
export function NightSky() {
  const inUse = useAnswer('night');
  const [asked, ask] = useAsked('night');
  const found = inUse.shown?.answer;
  const sheet = useMemo(() => found && nightSheet(found.report), [found]);
  return (
    <AnswerPanel
      name="Night sky"
      kind="night"
      inUse={inUse}
      heading={sheet?.heading}
      lacking={useLacking('night')}
      settings={
        <div className="answer-settings">
          <NumberSetting
            label="Sky under zero by"
            unit="stops"
            value={asked.under_stops}
            usual={String(DEFAULT_UNDER_STOPS)}
            from={-10}
            to={30}
            onChange={(under_stops) => ask({ under_stops })}
          />
        </div>
      }
      conventions={sheet?.footer}
    >
      {found && sheet && (
        <>
          <NightChart sky={found} />
          <Findings sentences={sheet.findings} label="When it is dark enough, and the moon" />
          <SheetRows caption="Twilight" rows={sheet.twilight} leftColumns={1} />
          <SheetRows caption="Hour by hour" rows={sheet.hours} leftColumns={1} />
        </>
      )}
    </AnswerPanel>
  );
}
