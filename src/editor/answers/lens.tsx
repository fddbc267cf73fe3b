import { useMemo } from 'react';
import { lensSheet } from '../../paperwork/lens-sheet.ts';
import { DEFAULT_FRAME_WIDTH_px, isFault } from '../../scene/framing/lens-report.ts';
import { AnswerPanel } from './answer-panel.tsx';
import { DepthOfField } from './depth-of-field.tsx';
import { Findings } from './findings.tsx';
import { useLacking } from './lacking.ts';
import { LampChoice } from './lamp-choice.tsx';
import { NumberSetting } from './number-setting.tsx';
import { SheetRows } from './sheet-rows.tsx';
import { useAnswer, useAsked } from './use-answers.ts';

/** What the camera's lens and shutter make of the scene, and what is in shot that should not be. */
export function Lens() {
  const inUse = useAnswer('lens');
  const [asked, ask] = useAsked('lens');
  const report = inUse.shown?.answer;
  const sheet = useMemo(() => report && lensSheet(report), [report]);
  const faults = report?.lamps.filter(isFault) ?? [];
  return (
    <AnswerPanel
      name="Lens and shutter"
      kind="lens"
      inUse={inUse}
      heading={sheet?.heading}
      lacking={useLacking('lens')}
      settings={
        <div className="answer-settings">
          <NumberSetting
            label="Film rate"
            unit="fps"
            value={asked.rate_fps}
            usual="stills"
            from={1}
            to={10_000}
            onChange={(rate_fps) => ask({ rate_fps })}
          />
          <NumberSetting
            label="Picture width"
            unit="px"
            value={asked.frameWidth_px}
            usual={String(DEFAULT_FRAME_WIDTH_px)}
            from={100}
            to={100_000}
            onChange={(frameWidth_px) => ask({ frameWidth_px })}
          />
        </div>
      }
      conventions={sheet?.footer}
    >
      {report && sheet && (
        <>
          <section className="answer-part" aria-label="In shot">
            <p className="verdict">
              {faults.length === 0
                ? 'No head on a stand and no stand is in shot.'
                : 'In shot, and should not be:'}
            </p>
            {faults.length > 0 && (
              <div className="in-row">
                {faults.map(({ id, name }) => (
                  <LampChoice key={id} id={id} name={name} />
                ))}
              </div>
            )}
          </section>
          <Findings
            sentences={sheet.findings}
            label="What is to be known: in shot, flicker, blur of what moves"
          />
          <DepthOfField report={report} />
          <dl className="facts">
            {sheet.lens.map(([word, what]) => (
              <div key={word}>
                <dt>{word}</dt>
                <dd>{what}</dd>
              </div>
            ))}
          </dl>
          <SheetRows
            caption="Lamps as the camera sees them"
            rows={sheet.lamps}
            leftColumns={3}
            isFault={(row) => isFault(report.lamps[row]!)}
          />
          <SheetRows caption="Figures in frame" rows={sheet.figures} leftColumns={3} />
          <SheetRows caption="Marks in frame and in focus" rows={sheet.marks} leftColumns={4} />
        </>
      )}
    </AnswerPanel>
  );
}
