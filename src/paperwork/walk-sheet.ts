import { SHARP_px } from '../scene/framing/path-blur.ts';
import {
  SHADOW_STOPS,
  type ShadowSpan,
  type WalkExtreme,
  type WalkerFraming,
  type WalkReport,
  type WalkStep,
} from '../scene/walk/walk-report.ts';
import { METER_HEIGHT_m } from '../scene/walk/walker.ts';
import { correctedText } from './corrected-text.ts';
import { shutterText, significant } from './exposure-sheet.ts';
import { signedStops } from './lens-sheet.ts';
import { metresText } from './tape-text.ts';

/** The strip chart of a walk as data. */
export interface WalkSheet {
  readonly title: string;
  readonly heading: string;
  readonly strip: readonly (readonly string[])[];
  readonly findings: readonly string[];
  readonly footer: readonly string[];
}

/** So many lamps have a column of their own; the strongest on the walk come first. */
const LAMP_COLUMNS = 5;

/** What a lamp or a mark is called, by its id. */
type NameOf = (id: string) => string;

/** By ids, or by the names that are given for them. */
export function walkSheet(report: WalkReport, nameOf: NameOf = (id) => id): WalkSheet {
  const lamps = strongestLamps(report.steps).slice(0, LAMP_COLUMNS);
  return {
    title: report.title,
    heading: [
      report.setup === null ? 'Base' : `Setup ${report.setup}`,
      `path ${report.path}: ${report.name}`,
      `camera ${report.camera}`,
      shutterText(report.shutter_s),
    ].join(' · '),
    strip: [
      ['Time', 'x', 'z', 'Stops', SCALE, ...lamps.map(nameOf), 'Shades', 'Blur', 'Frame'],
      ...report.steps.map((step) => stripRow(step, lamps, nameOf)),
    ],
    findings: [
      extremeText('Brightest', report.brightest, nameOf),
      extremeText('Darkest', report.darkest, nameOf),
      ...shadowTexts(report, nameOf),
      ...frameTexts(report),
    ],
    footer: [
      `Stops: straight light of lamps and sky on a dome to the camera, ${METER_HEIGHT_m} m over the path, before the walker is there; ` +
        `zero ${significant(report.zero_lx)} lx; ±${plusMinus(report.steps)} stop of the inputs. Lamps: what each gives alone, stops. ` +
        'Bounce and glow of haze are not counted: shadows are softer on set.',
      ...(report.corrected ? [correctedText(report.corrected.readings)] : []),
      `Shades: marks that lose more than ${SHADOW_STOPS} stop of their straight light to the walker, in stops; spans are for a face ` +
        `0.2 m wide. Times to ±0.2 s: people do not walk by a clock.`,
      `Blur: pixels of ${report.frameWidth_px} across while the shutter is open. Frames at ${significant(report.rate_fps)} fps.`,
    ],
  };
}

/** From −6 to +6 stops, half a stop a character, with the zero in the middle. */
const HALF = 12;
const SCALE = `−6${' '.repeat(HALF - 2)}0${' '.repeat(HALF - 2)}+6`;

function stripText(stops: number): string {
  const track: string[] = Array.from({ length: 2 * HALF + 1 }, (_, i) => (i === HALF ? '|' : '·'));
  if (stops < -HALF / 2) track[0] = '<';
  else if (stops > HALF / 2) track[2 * HALF] = '>';
  else track[HALF + Math.round(2 * stops)] = '#';
  return track.join('');
}

function stripRow(step: WalkStep, lamps: readonly string[], nameOf: NameOf): string[] {
  const [x, , z] = step.position_m;
  const alone = new Map(step.lamps.map(({ id, stops }) => [id, stops]));
  return [
    step.t_s.toFixed(1),
    placeText(x),
    placeText(z),
    decimalStops(step.stops),
    stripText(step.stops),
    ...lamps.map((id) => lampText(alone.get(id)!)),
    step.shadows.map(({ mark, loss_stops }) => `${nameOf(mark)} ${decimalStops(loss_stops)}`).join(', ') ||
      '–',
    step.framing === 'out' ? '–' : step.blur_px === null ? 'at the lens' : significant(step.blur_px),
    FRAMING_WORDS[step.framing],
  ];
}

/** Twelve stops under, no camera sees it. */
const DARK_STOPS = -12;

function lampText(stops: number): string {
  return stops < DARK_STOPS ? '–' : decimalStops(stops);
}

const FRAMING_WORDS: Readonly<Record<WalkerFraming, string>> = {
  whole: 'in',
  cut: 'cut',
  hidden: 'hidden',
  out: 'out',
};

function strongestLamps(steps: readonly WalkStep[]): string[] {
  const most = new Map<string, number>();
  for (const { lamps } of steps)
    for (const { id, dome_lx } of lamps) most.set(id, Math.max(most.get(id) ?? 0, dome_lx));
  return [...most]
    .filter(([, lx]) => lx > 0)
    .sort((a, b) => b[1] - a[1])
    .map(([id]) => id);
}

function extremeText(
  word: string,
  { t_s, position_m: [x, , z], stops, lamp }: WalkExtreme,
  nameOf: NameOf,
): string {
  const place = `at ${t_s.toFixed(1)} s (x ${placeText(x)}, z ${placeText(z)})`;
  const from = lamp
    ? `, ${Math.round(lamp.share * 100)} % of it from ${nameOf(lamp.id)}, ${metresText(lamp.distance_m)} away`
    : '';
  return `${word} ${place}: ${decimalStops(stops)} stops${from}.`;
}

function shadowTexts({ shadows, rate_fps }: WalkReport, nameOf: NameOf): string[] {
  if (shadows.length === 0) return ['The walker shades no mark.'];
  return shadows.map((shadow) => shadowText(shadow, rate_fps, nameOf));
}

function shadowText(shadow: ShadowSpan, rate_fps: number, nameOf: NameOf): string {
  const { name, from_s, to_s, duration_s, frames, deepest_stops, lamp, shadow: thrown } = shadow;
  const when = `${from_s.toFixed(1)} to ${to_s.toFixed(1)} s (${duration_s.toFixed(2)} s, ${frames} frames at ${significant(rate_fps)} fps)`;
  const loss =
    deepest_stops === Number.NEGATIVE_INFINITY
      ? 'all of its straight light is gone'
      : deepest_stops < 0
        ? `down to ${decimalStops(deepest_stops)} stops`
        : 'only the edge of the face';
  const of = lamp ? `, mostly of ${nameOf(lamp)}` : '';
  const runs = thrown
    ? ` (a shadow some ${thrown.width_m.toFixed(1)} m wide, at up to ${thrown.speed_m_per_s.toFixed(1)} m/s)`
    : '';
  return `Shades ${name} from ${when}: ${loss}${of}${runs}.`;
}

function frameTexts({ inFrame, mostBlurred, frameWidth_px }: WalkReport): string[] {
  if (inFrame.length === 0) return ['Never seen in this frame.'];
  const spans = inFrame.map(({ from_s, to_s }) => `${from_s.toFixed(1)} to ${to_s.toFixed(1)} s`);
  const texts = [`In frame from ${spans.join(' and ')}.`];
  if (!mostBlurred) return texts;
  const { t_s, blur_px, sharp } = mostBlurred;
  const blur = `Most blurred at ${t_s.toFixed(1)} s: ${significant(blur_px)} px of ${frameWidth_px}`;
  texts.push(
    sharp
      ? `${blur}; ${SHARP_px} px needs ${shutterText(sharp.shutter_s)} (${signedStops(sharp.stops)}), or hold still.`
      : `${blur}, sharp.`,
  );
  return texts;
}

/** Metres to the decimetre, with a true minus and no minus before nought. */
function placeText(coordinate_m: number): string {
  const size = Math.abs(coordinate_m).toFixed(1);
  return coordinate_m < 0 && size !== '0.0' ? `−${size}` : size;
}

function plusMinus(steps: readonly WalkStep[]): string {
  return Math.max(...steps.map(({ input_stops }) => input_stops)).toFixed(1);
}

function decimalStops(stops: number): string {
  if (stops === Number.NEGATIVE_INFINITY) return '−∞';
  const size = Math.abs(stops).toFixed(1);
  return size === '0.0' ? '0' : `${stops < 0 ? '−' : '+'}${size}`;
}
