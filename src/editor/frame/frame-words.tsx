import { thirdsText } from '../../core/exposure/thirds.ts';
import { exposureWords, significant, viewWords } from '../../paperwork/exposure-sheet.ts';
import { useAnswer, useAnswers } from '../answers/use-answers.ts';
import { lengthText, rangeText } from '../figures/length-text.ts';
import { useEditor } from '../store/use-editor.ts';
import type { FrameProgress, FrameState } from './frame-state.ts';
import { useFrame } from './use-frame.ts';

/** Under the frame: what the spot meter reads, and what the frame is worth. */
export function FrameWords() {
  return (
    <div className="frame-words">
      <SpotWords />
      <FocusWords />
      <FrameWorth />
    </div>
  );
}

function SpotWords() {
  const spot = useFrame((state) => state.spot);
  const zero = useFrame((state) => state.camera?.zero_cd_m2);
  const lengths = useEditor((state) => state.lengths);
  if (!spot)
    return (
      <p className="quiet spot-hint" data-testid="spot">
        Point at the frame to read the spot meter.
      </p>
    );
  const { answer } = spot;
  if (!answer)
    return (
      <p className="quiet" data-testid="spot" aria-busy="true">
        Spot: reading…
      </p>
    );
  const { numerical_stops, input_stops } = answer.uncertainty;
  const plusMinus = Math.hypot(numerical_stops, input_stops);
  return (
    <p data-testid="spot" aria-live="polite">
      <strong>{thirdsText(answer.stops)}</strong> stops from middle grey,{' '}
      {significant(answer.luminance_cd_m2)} cd/m²
      {' ±'}
      {plusMinus.toFixed(1)} <span className="quiet">·</span>{' '}
      {answer.seen ? <bdi>{answer.seen.name}</bdi> : 'sky'}
      {answer.seen && `, ${lengthText(answer.seen.distance_m, lengths)}`}
      {answer.parts.haze_cd_m2 > 0 && zero !== undefined && (
        <span className="quiet">, of it haze {significant(answer.parts.haze_cd_m2)}</span>
      )}
    </p>
  );
}

/** What counts as sharp in the focus range over the frame; nothing while it is not wanted. */
function FocusWords() {
  const wanted = useAnswers((state) => state.wanted.has('focus'));
  return wanted ? <FocusRangeWords /> : null;
}

function FocusRangeWords() {
  const { shown, freshness } = useAnswer('focus');
  const lengths = useEditor((state) => state.lengths);
  if (!shown || freshness !== 'fresh') {
    return (
      <p className="quiet" data-testid="focus-range" aria-busy="true">
        Focus range: working it out…
      </p>
    );
  }
  const { answer, problems } = shown;
  if (!answer) {
    return (
      <p data-testid="focus-range" role="status">
        No focus range: <bdi>{problems[0]?.found}</bdi>.
      </p>
    );
  }
  const { near_m, far_m, circle_mm, rings } = answer;
  return (
    <p className="quiet" data-testid="focus-range">
      Sharp where hatched: {rangeText(near_m, far_m, lengths)} along the axis ±5 %, circle{' '}
      {circle_mm.toFixed(4)} mm (diagonal/1500).{rings.length === 0 && ' Nothing in frame lies there.'}
    </p>
  );
}

function FrameWorth() {
  const progress = useFrame((state) => state.progress);
  const withoutGraphics = useFrame((state) => state.withoutGraphics);
  const standIn = useFrame((state) => state.standIn);
  const smoothed = useFrame((state) => state.smoothed);
  const held = useFrame(heldWords);
  const limits = useFrame((state) => state.limits);
  const report = useEditor((state) => state.reading?.report);
  return (
    <div className="quiet frame-worth">
      <p>
        {report && (
          <>
            <span className="frame-of">{viewWords(report)} · </span>
            {exposureWords(report.exposure)}
          </>
        )}
        {held && <span data-testid="frame-held">{` · ${held}`}</span>}
        {progress && (
          <span data-testid="frame-progress" data-samples={progress.samples}>
            {' · '}
            {progressWords(progress, smoothed)}
          </span>
        )}
      </p>
      {standIn && <p>By the processor: {progressWords(standIn, smoothed)}.</p>}
      {withoutGraphics !== null && (
        <p title={withoutGraphics}>
          Made without graphics, small and slow. <span className="out-of-sight">{withoutGraphics}</span>
        </p>
      )}
      {limits.map((limit) => (
        <p key={limit}>{limit}</p>
      ))}
    </div>
  );
}

function heldWords({ paused, behind, camera }: FrameState): string | null {
  if (!paused) return null;
  if (!camera) return 'held before its first light';
  return behind ? 'held: not of the scene as it stands now' : 'held';
}

function progressWords(
  { stage, samples, noise, width_px, height_px }: FrameProgress,
  smoothed: boolean,
): string {
  if (stage === 'building') return 'making the graphics ready…';
  const size = `${width_px} × ${height_px}`;
  if (samples === 0) return `${size}, first light…`;
  const grain = Number.isNaN(noise)
    ? ''
    : `, grain ${noise < 0.1 ? (100 * noise).toFixed(1) : Math.round(100 * noise)} %`;
  return `${size}, ${samples} ${samples === 1 ? 'sample' : 'samples'} a pixel${grain}${smoothed ? ', smoothed' : ''}${stage === 'rests' ? ', at rest' : ''}`;
}
