import type {
  GlintReport,
  SceneGlint,
  SceneLampInView,
  ScenePaneImage,
} from '../scene/mirror/find-scene-glints.ts';
import { placeText } from '../scene/mirror/place-on-solid.ts';
import { CAUTIONS, PLANNING_AID } from './cautions.ts';
import { correctedText } from './corrected-text.ts';
import { significant } from './exposure-sheet.ts';
import { signed } from './signed-text.ts';

/** What is mirrored, seen and flares, as sentences ready to print. */
export interface GlintSheet {
  readonly title: string;
  readonly heading: string;
  /** The answer in one line. */
  readonly verdict: string;
  readonly blocks: readonly GlintBlock[];
  readonly footer: readonly string[];
}

export interface GlintBlock {
  readonly heading: string;
  readonly lines: readonly GlintLine[];
}

export interface GlintLine {
  readonly text: string;
  /** Id of the lamp that it is about; null where it is about all of them. */
  readonly lamp: string | null;
  /** The mirror image that it is about, where it is about one. */
  readonly glint: SceneGlint | null;
  /** What would take it away, where that was looked for. */
  readonly cures: readonly string[];
}

/** The sentences about cures of one glint. */
export type CureWords = (lamp: string, solid: string) => readonly string[];

export function glintSheet(report: GlintReport, cureWords: CureWords = () => []): GlintSheet {
  const shown = withoutRepeats(report.glints);
  const burning = shown.filter(({ burns }) => burns);
  const dimmer = shown.filter(({ inFrame, burns }) => inFrame && !burns);
  const outside = shown.filter((g) => !g.inFrame && g.stops >= report.clip_stops);
  const panes = report.panes.filter(({ inFrame }) => inFrame);
  return {
    title: report.title,
    heading: [
      report.setup === null ? 'Base' : `Setup ${report.setup}`,
      `camera ${report.camera}`,
      `white at +${report.clip_stops} stops over middle grey (${significant(report.zero_cd_m2)} cd/m²)`,
    ].join(' · '),
    verdict: verdict(burning),
    blocks: [
      block(
        'White in frame, worst first',
        burning.map((g) => ({ ...glintLine(g, report), cures: cureWords(g.lamp, g.solid) })),
      ),
      block('In frame, below white', dimmerLines(dimmer, report)),
      block(
        'White, but out of frame',
        outside.map((g) => glintLine(g, report)),
      ),
      block(
        'In panes, if they are clean plain glass (not in the picture that is computed)',
        panes.map((p) => line(paneSentence(p), p.lamp)),
      ),
      block(
        'Lamps in frame',
        report.lamps.filter(({ inFrame }) => inFrame).map((l) => line(lampSentence(l), l.lamp)),
      ),
      block(
        'Light that strikes the lens',
        veilLines(report).map((text) => line(text, null)),
      ),
    ].filter(({ lines }) => lines.length > 0),
    footer: footer(report, shown),
  };
}

function block(heading: string, lines: readonly GlintLine[]): GlintBlock {
  return { heading, lines };
}

function line(text: string, lamp: string | null): GlintLine {
  return { text, lamp, glint: null, cures: [] };
}

function glintLine(glint: SceneGlint, report: GlintReport): GlintLine {
  return { ...line(glintSentence(glint, report), glint.lamp), glint };
}

/** Of a figure or a pipe rack many places shine a little: the brightest speaks for them. */
function dimmerLines(dimmer: readonly SceneGlint[], report: GlintReport): GlintLine[] {
  const isSame = (a: SceneGlint, b: SceneGlint) => a.lamp === b.lamp && a.solid === b.solid;
  return dimmer
    .filter((glint, i) => dimmer.findIndex((other) => isSame(other, glint)) === i)
    .map((glint) => {
      const more = dimmer.filter((other) => isSame(other, glint)).length - 1;
      const line = glintLine(glint, report);
      return more > 0 ? { ...line, text: `${line.text} And ${more} dimmer on it.` } : line;
    });
}

/** In one thing the image of one lamp may run over an edge: the brighter part stands for it. */
const SAME_PLACE = 0.03;

function withoutRepeats(glints: readonly SceneGlint[]): SceneGlint[] {
  return glints.filter(
    (glint, i) =>
      !glints
        .slice(0, i)
        .some(
          (other) =>
            other.lamp === glint.lamp && other.solid === glint.solid && apart(other, glint) < SAME_PLACE,
        ),
  );
}

function apart(a: SceneGlint, b: SceneGlint): number {
  if (!a.pixel || !b.pixel) return Number.POSITIVE_INFINITY;
  return Math.hypot(a.pixel[0] - b.pixel[0], a.pixel[1] - b.pixel[1]);
}

function verdict(burning: readonly SceneGlint[]): string {
  if (burning.length === 0) return 'No lamp mirrors white in this frame.';
  const names = [...new Set(burning.map(({ lampName }) => lampName))];
  return `${list(names)} ${names.length === 1 ? 'mirrors' : 'mirror'} white in this frame.`;
}

function glintSentence(glint: SceneGlint, { clip_stops }: GlintReport): string {
  const { lampName, solidName, place, point_m, kind, incidence_deg, stops, faceShare } = glint;
  const how = kind === 'image' ? 'mirrors in' : 'spreads its sheen over';
  const over = stops - clip_stops;
  const sentences = [
    `${lampName} ${how} ${solidName}, ${placeText(place, point_m)}, ${frameText(glint)}; ` +
      `incidence ${incidence_deg.toFixed(0)}°, ${strength(glint)}${over >= 0 ? `, ${over.toFixed(1)} over white` : ''}` +
      `${glint.approximate ? '; curved, so about' : ''}.`,
    ...(faceShare > 0 && faceShare < MOST_OF_FACE ? [`${percent(faceShare)} of its face shows.`] : []),
    ...(over >= 0 ? [patchText(glint), polariserText(glint, clip_stops)] : []),
  ];
  return sentences.filter(Boolean).join(' ');
}

const MOST_OF_FACE = 0.97;

function strength({ stops, uncertainty_stops }: SceneGlint): string {
  return `${signed(stops, 1)} stops (±${uncertainty_stops.toFixed(1)})`;
}

function patchText({ patch }: SceneGlint): string {
  if (!patch) return '';
  const size = sizeText(patch.along_m, patch.across_m);
  const wide = Number.isFinite(patch.ofFrameWidth)
    ? `, ${percent(patch.ofFrameWidth)} of the frame's width`
    : '';
  return `White over ${size}${wide}.`;
}

/** What the scene loses to an ideal polariser, so that the exposure is opened up by as much. */
const POLARISER_COST_stops = 1;
const NOTHING_LEFT = -3;

/** Whether even a perfect polariser leaves it white, so that only moving something or a flag takes it away. */
export function geometryOrFlagOnly({ polarised_stops }: SceneGlint, clip_stops: number): boolean {
  return polarised_stops + POLARISER_COST_stops >= clip_stops;
}

function polariserText(glint: SceneGlint, clip_stops: number): string {
  const { polarised_stops } = glint;
  if (polarised_stops < NOTHING_LEFT)
    return 'A perfect polariser leaves next to nothing, and costs the scene 1 stop.';
  const opened = polarised_stops + POLARISER_COST_stops;
  const left = `A perfect polariser leaves ${signed(polarised_stops, 1)}, ${signed(opened, 1)} when the scene is opened up for it`;
  return geometryOrFlagOnly(glint, clip_stops) ? `${left}: geometry or a flag only.` : `${left}.`;
}

function frameText({ inFrame, pixel }: Pick<SceneGlint, 'inFrame' | 'pixel'>): string {
  if (!pixel) return 'behind the camera';
  const [u, v] = pixel;
  if (inFrame) return `in frame at ${percent(u)} across, ${percent(v)} down`;
  const off = [
    ...(u < 0 ? [`${percent(-u)} of its width to the left`] : []),
    ...(u > 1 ? [`${percent(u - 1)} of its width to the right`] : []),
    ...(v < 0 ? [`${percent(-v)} of its height above`] : []),
    ...(v > 1 ? [`${percent(v - 1)} of its height below`] : []),
  ];
  return `out of frame by ${list(off)}`;
}

function paneSentence(image: ScenePaneImage): string {
  const { lampName, solidName, paneName, place, point_m, incidence_deg, stops } = image;
  const where = `${solidName}, ${placeText(place, point_m)}`;
  return (
    `${lampName} would mirror in the pane "${paneName}" of ${where}, ${frameText(image)}; ` +
    `about ${signed(stops, 1)} stops at ${incidence_deg.toFixed(0)}° incidence.`
  );
}

function lampSentence({
  name,
  pixel,
  facing,
  faceShare,
  hiddenBy,
  stops,
  distance_m,
}: SceneLampInView): string {
  const [u, v] = pixel ?? [0, 0];
  const at = `${name} is in frame at ${percent(u)} across, ${percent(v)} down, ${distance_m.toFixed(1)} m off`;
  if (faceShare === 0) return `${at}, hidden${hiddenBy === null ? '' : ` by ${hiddenBy}`}.`;
  if (!facing) return `${at}, seen from behind: the head shows, its face does not.`;
  const seen =
    faceShare > MOST_OF_FACE
      ? 'its face bare'
      : `${percent(faceShare)} of its face seen${hiddenBy === null ? '' : ` past ${hiddenBy}`}`;
  return `${at}, ${seen}: ${signed(stops, 1)} stops.`;
}

/** Under the noise of any camera. */
const NO_VEIL = -9;

function veilLines({ lamps, veil }: GlintReport): string[] {
  const striking = lamps.filter(({ veil_stops }) => veil_stops > NO_VEIL);
  if (striking.length === 0) return [];
  const words = (l: SceneLampInView) =>
    `${l.name} ${signed(l.veil_stops, 1)} (${l.inFrame ? 'in frame' : `${l.offAxis_deg.toFixed(0)}° off axis: flag it`})`;
  return [
    `About ${significant(veil.luminance_cd_m2)} cd/m² of veil, ${signed(veil.stops, 1)} stops ` +
      `(±${veil.uncertainty_stops}), over the whole picture; no black gets darker. ${striking.map(words).join(', ')}.`,
  ];
}

function footer(report: GlintReport, shown: readonly SceneGlint[]): string[] {
  const quiet = shown.filter((g) => !g.inFrame && g.stops < report.clip_stops).length;
  return [
    'Stops are over middle grey as a spot meter sees it; ± from photometry, haze, uneven lamp faces and the finish. ' +
      'Heights are over y = 0. Across and down are from the top left.',
    'Mirror images keep their brightness however small: where one is smaller than a pixel, the pixel shows less. ' +
      'On curved things a small error of shape moves a glint far: look on the night.',
    `The veil assumes that ${percent(report.veil.index)} of the light at the lens spreads evenly over the picture ` +
      '(veiling glare index, ISO 9358): no ghosts, no hood.',
    'Not counted: light over two mirrors in a row, the backs and housings of lamps, wind on water, ' +
      'hollows of meshes.' +
      (quiet > 0 ? ` ${quiet} dimmer ${quiet === 1 ? 'glint' : 'glints'} out of frame left out.` : '') +
      (report.tooRough.length > 0 ? ` Too rough to mirror (use spot): ${list(report.tooRough)}.` : '') +
      (report.lampsOff.length > 0 ? ` Off: ${list(report.lampsOff)}.` : ''),
    ...(report.corrected ? [correctedText(report.corrected.readings)] : []),
    PLANNING_AID,
    ...CAUTIONS.eyes,
  ];
}

function percent(share: number): string {
  const value = 100 * share;
  if (value > 0 && value < 0.05) return 'under 0.1 %';
  const text = value !== 0 && Math.abs(value) < 0.95 ? value.toFixed(1) : value.toFixed(0);
  return `${text.replace('-', '\u2212')} %`;
}

/** Both in the unit that suits the longer one. */
function sizeText(along_m: number, across_m: number): string {
  const longer = Math.max(along_m, across_m);
  const [unit, scale] =
    longer >= 0.995 ? (['m', 1] as const) : longer >= 0.01 ? (['cm', 100] as const) : (['mm', 1000] as const);
  const figure = (x: number) => String(Number((x * scale).toPrecision(2)));
  return `${figure(along_m)} × ${figure(across_m)} ${unit}`;
}

function list(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}
