import { memo } from 'react';
import { thirdsText } from '../../core/exposure/thirds.ts';
import { readingText } from '../../paperwork/exposure-sheet.ts';
import { DEFAULT_WHITE_BALANCE_K } from '../../scene/camera/scene-camera.ts';
import type { MeterReport } from '../../scene/meter/meter-scene.ts';
import { LampBadge } from '../figures/lamp-badge.tsx';
import { lampSign } from '../figures/lamp-colour.ts';
import { choose } from '../store/choose.ts';
import { documentShown, markChosen } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { type MixedReading, mixedReading, SKY } from './mixed-reading.ts';
import { isAlone, toggleAlone, toggleMuted } from './muting.ts';
import { RatioFigures } from './ratio-figures.tsx';
import { colourWords, fNumberWords, plusMinusWords, stopsWords } from './reading-words.ts';

/** The chosen mark in full: what the meter shows there, of what colour, in what ratio, from which lamps. */
export const MarkDetail = memo(function MarkDetail({ report }: { readonly report: MeterReport }) {
  const chosen = useEditor(markChosen);
  const muted = useEditor((state) => state.muted);
  const index = Math.max(
    0,
    report.marks.findIndex(({ id }) => id === chosen),
  );
  const mark = report.marks[index];
  if (!mark) return null;
  const mixed = mixedReading(mark, report.exposure, muted);

  return (
    <div className="mark-detail" data-testid="mark-detail">
      <p className="mark-detail-name">
        <span className="mark-number needle-number chosen">{index + 1}</span>
        <span>
          <bdi>{mark.name}</bdi>{' '}
          <span className="quiet">
            {mark.receptor} → <bdi>{mark.facing}</bdi>
          </span>
        </span>
      </p>
      <MeterFigures mixed={mixed} camera={report.camera} />
      <RatioFigures report={report} mark={mark} />
      <Parts mixed={mixed} allLight={report.covers.bounce} />
    </div>
  );
});

function MeterFigures({ mixed, camera }: { readonly mixed: MixedReading; readonly camera: string }) {
  const unit = useEditor((state) => state.unit);
  const whiteBalance_K = useEditor(
    (state) =>
      documentShown(state)?.cameras?.find(({ id }) => id === camera)?.whiteBalance_K ??
      DEFAULT_WHITE_BALANCE_K,
  );
  const { illuminance_lx, stops, fNumber, plusMinus_stops, cct_K, mark } = mixed;
  const whole = mixed.illuminance_lx === mark.illuminance_lx;
  if (!(illuminance_lx > 0)) return <p className="mark-figures">No light reaches the meter here.</p>;
  return (
    <>
      <p className="mark-figures">
        <strong>{stopsWords(stops)}</strong> {plusMinusWords(plusMinus_stops)}
        <strong>
          {readingText(illuminance_lx, unit)} {unit}
        </strong>
        <strong>{fNumberWords(fNumber)}</strong>
      </p>
      <p className="quiet">
        {cct_K !== null
          ? `${colourWords(cct_K, whiteBalance_K)}.`
          : whole
            ? 'A saturated colour: it has no colour temperature.'
            : 'With lamps left out: ± and colour are known for all lamps together only.'}
      </p>
    </>
  );
}

function Parts({ mixed, allLight }: { readonly mixed: MixedReading; readonly allLight: boolean }) {
  const store = useEditorStore();
  const unit = useEditor((state) => state.unit);
  const document = useEditor(documentShown);
  const muted = useEditor((state) => state.muted);
  const alone = useEditor((state) => mixed.mark.lamps.find(({ id }) => isAlone(state, id))?.id);
  const nameOf = (id: string) => document?.lamps?.find((lamp) => lamp.id === id)?.name ?? id;
  const shareOf = (of: string | typeof SKY) => mixed.parts.find((part) => part.of === of)?.share ?? 0;
  const { mark } = mixed;

  return (
    <>
      <ul className="rule-parts" aria-label={`What makes up ${mark.name}`}>
        {mark.lamps
          .filter(({ illuminance_lx }) => illuminance_lx > 0)
          .map(({ id, illuminance_lx, stops }) => {
            const name = nameOf(id);
            const out = muted.has(id);
            return (
              <li key={id} data-part={id}>
                <button type="button" className="part-name" onClick={() => choose(store, [id])}>
                  <LampBadge sign={lampSign(document, id)} />
                  <span>
                    <bdi className={out ? 'part-out' : undefined}>{name}</bdi>
                    <span className="quiet">
                      {out ? 'left out' : shareText(shareOf(id))} · {readingText(illuminance_lx, unit)} {unit}{' '}
                      · {thirdsText(stops)}
                    </span>
                  </span>
                </button>
                <button
                  type="button"
                  aria-pressed={out}
                  aria-label={`Leave out ${name}`}
                  onClick={() => toggleMuted(store, id)}
                >
                  Out
                </button>
                <button
                  type="button"
                  aria-pressed={alone === id}
                  aria-label={`${name} alone`}
                  onClick={() => toggleAlone(store, id)}
                >
                  Alone
                </button>
              </li>
            );
          })}
        <li>
          <span className="part-name">
            <span className="sky-badge" aria-hidden="true" />
            <span>
              Sky
              <span className="quiet">
                {shareText(shareOf(SKY))} · {readingText(mark.sky_lx, unit)} {unit}
              </span>
            </span>
          </span>
        </li>
      </ul>
      {allLight && (
        <p className="quiet">
          Of it {readingText(mixed.bounce_lx, unit)} {unit} by way of surfaces and glass,{' '}
          {readingText(mixed.haze_lx, unit)} {unit} from the glow of haze.
        </p>
      )}
    </>
  );
}

function shareText(share: number): string {
  if (share > 0 && share < 0.005) return 'under 1 %';
  return `${Math.round(100 * share)} %`;
}
