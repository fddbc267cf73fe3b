import { useMemo } from 'react';
import { CAUTIONS } from '../../paperwork/cautions.ts';
import { type GlintLine, geometryOrFlagOnly, glintSheet } from '../../paperwork/glint-sheet.ts';
import { signed } from '../../paperwork/signed-text.ts';
import type { GlintReport, SceneGlint } from '../../scene/mirror/find-scene-glints.ts';
import type { AnswerOf } from '../worker/answer-kinds.ts';
import { AnswerPanel } from './answer-panel.tsx';
import { GlintCureList } from './glint-cures.tsx';
import { useLacking } from './lacking.ts';
import { LampChoice } from './lamp-choice.tsx';
import { useAnswer } from './use-answers.ts';

/** Mirror images of lamps, the worst first, and what takes them away. */
export function Glints() {
  const inUse = useAnswer('glints');
  const found = inUse.shown?.answer;
  const sheet = useMemo(() => found && glintSheet(found.report), [found]);
  return (
    <AnswerPanel
      name="Glints"
      kind="glints"
      inUse={inUse}
      heading={sheet?.heading}
      lacking={useLacking('glints')}
      moreToCome="looking for cures…"
      cautions={CAUTIONS.eyes}
      conventions={sheet?.footer}
    >
      {found && sheet && (
        <>
          <p className="verdict">
            <bdi>{sheet.verdict}</bdi>
          </p>
          {sheet.blocks.map(({ heading, lines }) => (
            <section key={heading} className="answer-part">
              <h3>{heading}</h3>
              <ul className="cards">
                {lines.map((line, i) => (
                  <GlintCard
                    key={line.text}
                    line={line}
                    found={found}
                    first={lines.findIndex((other) => samePair(other, line)) === i}
                    stale={inUse.freshness === 'stale'}
                  />
                ))}
              </ul>
            </section>
          ))}
        </>
      )}
    </AnswerPanel>
  );
}

function samePair({ glint: one }: GlintLine, { glint: other }: GlintLine): boolean {
  return one !== null && other !== null && one.lamp === other.lamp && one.solid === other.solid;
}

interface GlintCardProps {
  readonly line: GlintLine;
  readonly found: AnswerOf<'glints'>;
  /** Of this lamp in this thing: what cures one glint of them cures all. */
  readonly first: boolean;
  readonly stale: boolean;
}

function GlintCard({ line: { text, lamp, glint }, found: { report, cures }, first, stale }: GlintCardProps) {
  const name = report.lamps.find((one) => one.lamp === lamp)?.name;
  return (
    <li className="card">
      {lamp !== null && (
        <div className="card-head">
          <LampChoice id={lamp} name={glint?.lampName ?? name ?? lamp} />
          {glint && <GlintFigures glint={glint} report={report} />}
        </div>
      )}
      <p>
        <bdi>{text}</bdi>
      </p>
      {glint?.burns && first && (
        <GlintCureList
          glint={glint}
          report={report}
          found={cures?.find((pair) => pair.lamp === glint.lamp && pair.solid === glint.solid)}
          looking={cures === null}
          stale={stale}
        />
      )}
    </li>
  );
}

function GlintFigures({ glint, report }: { readonly glint: SceneGlint; readonly report: GlintReport }) {
  const { stops, uncertainty_stops, inFrame, burns, solidName } = glint;
  return (
    <>
      <span className="quiet">
        in <bdi>{solidName}</bdi>
      </span>
      <span className="tags">
        <span className={burns ? 'tag loud' : 'tag'}>{inFrame ? 'in frame' : 'out of frame'}</span>
        {burns && geometryOrFlagOnly(glint, report.clip_stops) && (
          <span className="tag">geometry or flag only</span>
        )}
      </span>
      <span className="card-figure">
        {signed(stops, 1)} <span className="quiet">±{uncertainty_stops.toFixed(1)} stops</span>
      </span>
    </>
  );
}
