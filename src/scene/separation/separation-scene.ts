import type { ThinLens } from '../../core/camera/thin-lens.ts';
import type { CameraExposure, Calibration as MeterConstants } from '../../core/exposure/zero.ts';
import { type Zero, zeroOf } from '../../core/exposure/zero.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import { type Development, displayColour } from '../../core/picture/develop.ts';
import { type LinearRgb, luminanceOfRgb, xyzFromLinearRgb } from '../../core/picture/linear-rgb.ts';
import { times } from '../../core/picture/matrix3.ts';
import { DEFAULT_TONE_RANGE } from '../../core/picture/tone-curve.ts';
import { whiteBalance } from '../../core/picture/white-balance.ts';
import {
  type CameraSight,
  contrastOf,
  type EdgeSide,
  type Merged,
  meanContrastError_stops,
  meanRgb,
} from '../../core/separation/contrast.ts';
import { contrastInputUncertainty_stops } from '../../core/separation/contrast-uncertainty.ts';
import { type CutOutline, cutOutline, type EdgeCell } from '../../core/separation/edge-cell.ts';
import type { Side } from '../../core/separation/edge-light.ts';
import { outlineSummary, STANDS_OUT_STOPS, shareOver } from '../../core/separation/outline-summary.ts';
import {
  type EdgeReading,
  pieceContrast,
  readOutline,
  sidesOf,
  smoothedSides,
} from '../../core/separation/read-outline.ts';
import { type Stretch, stretchesOf } from '../../core/separation/stretch.ts';
import type { Tristimulus } from '../../core/spectra/observer.ts';
import { HAZE, type LightBins, lampBin, luminance } from '../../core/transport/light-bins.ts';
import { newTracer, type Tracer } from '../../core/transport/tracer.ts';
import {
  calibrationOf,
  chosenCamera,
  DEFAULT_WHITE_BALANCE_K,
  exposureOf,
  lensOf,
} from '../camera/scene-camera.ts';
import { colourDifference_dE2000 } from '../colour/colour-difference.ts';
import { conversionOf, monochromeWords } from '../monochrome/monochrome.ts';
import { nearestName } from '../problems/nearest-name.ts';
import { problemAt, SceneError, shown } from '../problems/problem.ts';
import type { Camera, Monochrome } from '../schema/camera.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Figure } from '../schema/figure.ts';
import { bodyPartNames } from './body-part.ts';
import { silhouetteOf } from './silhouette.ts';

/** How figures stand out from what is behind them: the answer of `keyfall separation --json`, field by field. */
export interface SeparationReport {
  readonly keyfall: 1;
  readonly title: string;
  readonly setup: string | null;
  readonly camera: string;
  /** The monochrome conversion under which all is reckoned; null for colour. */
  readonly monochrome: string | null;
  readonly exposure: CameraExposure & { readonly calibration: MeterConstants; readonly zero: Zero };
  /** Below the floor all is black to the camera, above the white all is white. */
  readonly range: { readonly floor_stops: number; readonly white_stops: number };
  readonly figures: readonly FigureSeparation[];
}

export interface FigureSeparation {
  readonly id: string;
  readonly name: string;
  /** Parts of the whole outline that are out of frame, and of that in frame, hidden behind other things. */
  readonly outOfFrame: number;
  readonly hidden: number;
  /** What the outline that is seen comes to; null where none of it is. */
  readonly outline: OutlineReport | null;
}

export interface OutlineReport {
  readonly share_over_1_stop: number;
  /** The share when every contrast is off by the whole ± one way or the other. */
  readonly share_range: readonly [least: number, most: number];
  /** Of the size of the contrast. */
  readonly median_stops: number;
  /** Part of the outline along which the figure is the lighter. */
  readonly lighter_share: number;
  /** Less than half of the outline stands out by a stop. */
  readonly merges: boolean;
  /** Median CIEDE2000 between the two sides as the frame shows them, and with their brightness made equal. */
  readonly deltaE: number;
  readonly deltaE_of_colour: number;
  /** Median part of what is seen on the figure, and of what is seen behind it, that is glow of the haze before it. */
  readonly haze: { readonly inside: number; readonly outside: number };
  readonly uncertainty: { readonly numerical_stops: number; readonly input_stops: number };
  readonly worst: StretchReport;
  readonly stretches: readonly StretchReport[];
  readonly samples: readonly SampleReport[];
}

export interface StretchReport {
  /** Left and right are the figure's own. */
  readonly part: string;
  /** Where on the figure as the frame shows it. */
  readonly side: 'frame left' | 'frame right';
  /** Above zero: lighter than what is behind. */
  readonly stops: number;
  readonly numerical_stops: number;
  readonly merged: Merged;
  /** Middle of the stretch in the frame, 0..1 from the left and from the top. */
  readonly pixel: readonly [number, number];
  readonly behind: string;
  /** What is seen there is mostly haze glowing before it. */
  readonly behindGlow: boolean;
  /** Part of the outline that is seen. */
  readonly length: number;
}

export interface SampleReport {
  readonly pixel: readonly [number, number];
  readonly stops: number;
  readonly part: string;
}

export interface SeparationRequest {
  readonly setup?: string | undefined;
  readonly camera?: string | undefined;
  readonly figure?: string | undefined;
  /** Wanted numerical error of a stretch. */
  readonly error_stops?: number | undefined;
  /** In place of the camera's own; null for colour. */
  readonly monochrome?: Monochrome | null | undefined;
}

const DEFAULT_ERROR_STOPS = 0.1;
/** Pieces of outline in frame. */
const CELLS = 120;
/** A median is so much less sure than a mean, for errors of the normal kind. */
const MEDIAN_OVER_MEAN = 1.25;
/** Less of the outline than this standing out by a stop, and the figure merges: common practice, no source. */
export const LEAST_SHARE = 0.5;

/** A figure's outline with the light on either side of it read: what every further question is answered from. */
export interface ReadFigure {
  readonly figure: Figure;
  readonly owner: number;
  readonly outline: CutOutline;
  readonly stretches: readonly Stretch<string>[];
  readonly readings: readonly EdgeReading[];
}

/** A scene's figures before a camera, read. */
export interface ReadSeparation {
  readonly document: SceneDocument;
  readonly model: LightModel;
  readonly camera: Camera;
  readonly lens: ThinLens;
  readonly setup: string | null;
  readonly monochrome: Monochrome | null;
  readonly figures: readonly ReadFigure[];
}

/**
 * Reads the light on either side of every figure's outline (or of one figure's). The setup has been applied and the
 * document compiled to `model`. Throws SceneError without a camera, without figures, and for unknown ids.
 */
export function readSeparation(
  document: SceneDocument,
  model: LightModel,
  request: SeparationRequest = {},
): ReadSeparation {
  const camera = chosenCamera(document, request.camera);
  const figures = chosenFigures(document, request.figure);
  const lens = lensOf(camera);
  const monochrome = request.monochrome === undefined ? (camera.monochrome ?? null) : request.monochrome;
  const sight = sightOf(document, camera, monochrome);
  const tracer = newTracer(model);
  const error_stops = request.error_stops ?? DEFAULT_ERROR_STOPS;
  return {
    document,
    model,
    camera,
    lens,
    setup: request.setup ?? null,
    monochrome,
    figures: figures.map((figure) => readFigure(tracer, lens, figure, sight, error_stops)),
  };
}

function readFigure(
  tracer: Tracer,
  lens: ThinLens,
  figure: Figure,
  sight: CameraSight,
  error_stops: number,
): ReadFigure {
  const { model } = tracer;
  const owner = model.owners.findIndex(({ id }) => id === figure.id);
  const first = model.parts.findIndex((part) => part.owner === owner);
  const { rings } = silhouetteOf(
    lens,
    model.parts.filter((part) => part.owner === owner),
  );
  const outline = cutOutline(model, lens, owner, rings, CELLS);
  const nameOf = bodyPartNames(figure);
  const { cells } = outline;
  const stretches = stretchesOf(cells, ({ part, point_m }) => nameOf(part - first, point_m));
  const readings = readOutline({ tracer, lens, figure: owner }, cells, stretches, sight, error_stops);
  return { figure, owner, outline, stretches, readings };
}

function chosenFigures(document: SceneDocument, id: string | undefined): readonly Figure[] {
  const figures = document.figures ?? [];
  const ids = figures.map((figure) => figure.id);
  if (figures.length === 0) {
    const expected = 'at least one person, whose outline is compared with what is behind';
    throw new SceneError([problemAt(document, ['figures'], { found: 'no figures', expected })]);
  }
  if (id === undefined) return figures;
  const figure = figures.find((f) => f.id === id);
  if (figure) return [figure];
  const found = `no figure ${shown(id)}`;
  const expected = `one of ${ids.join(', ')}`;
  throw new SceneError([
    problemAt(document, ['figures'], { found, expected, nearest: nearestName(id, ids) }),
  ]);
}

/** What a camera makes of light, in colour or in monochrome. */
export function sightOf(document: SceneDocument, camera: Camera, monochrome: Monochrome | null): CameraSight {
  const zero_cd_m2 = zeroOf(exposureOf(camera), calibrationOf(document)).luminance_cd_m2;
  if (!monochrome) return { greyOf: luminanceOfRgb, zero_cd_m2, range: DEFAULT_TONE_RANGE };
  const balance = whiteBalance(camera.whiteBalance_K ?? DEFAULT_WHITE_BALANCE_K);
  const conversion = conversionOf(monochrome);
  return { greyOf: (rgb) => conversion(times(balance, rgb)), zero_cd_m2, range: DEFAULT_TONE_RANGE };
}

/** The report of what was read. */
export function separationReport(read: ReadSeparation): SeparationReport {
  const { document, model, camera, setup, monochrome } = read;
  const exposure = exposureOf(camera);
  const calibration = calibrationOf(document);
  const sight = sightOf(document, camera, monochrome);
  return {
    keyfall: 1,
    title: document.title,
    setup,
    camera: camera.id,
    monochrome: monochrome && monochromeWords(monochrome),
    exposure: { ...exposure, calibration, zero: zeroOf(exposure, calibration) },
    range: sight.range,
    figures: read.figures.map((figure) => ({
      id: figure.figure.id,
      name: figure.figure.name ?? figure.figure.id,
      outOfFrame: figure.outline.outOfFrame,
      hidden: figure.outline.hidden,
      outline:
        figure.readings.length === 0
          ? null
          : outlineReport(model, figure, sight, {
              whiteBalance_K: camera.whiteBalance_K ?? DEFAULT_WHITE_BALANCE_K,
              monochrome: monochrome ? conversionOf(monochrome) : undefined,
            }),
    })),
  };
}

function outlineReport(
  model: LightModel,
  read: ReadFigure,
  sight: CameraSight,
  development: Development,
): OutlineReport {
  const { readings, stretches } = read;
  const middle_u = readings.reduce((sum, { cell }) => sum + cell.place.u, 0) / readings.length;
  const reports = stretches.map((stretch) => stretchReport(model, readings, stretch, sight, middle_u));
  const samples = samplesOf(read, sight);
  const { median_stops, share_over_1_stop, lighter_share } = outlineSummary(samples.map((s) => s.stops));
  const members = membersOf(read);
  const numerical_stops = MEDIAN_OVER_MEAN * meanContrastError_stops(members.map(sidesOf), sight);
  const input_stops = medianOf(
    stretches.flatMap((stretch) => {
      const bins = (side: Side) => sumOfBins(stretch.cells.map((i) => readings[i]![side]));
      const own = contrastInputUncertainty_stops(model.lamps, bins('inside'), bins('outside'));
      return stretch.cells.map(() => own);
    }),
  );
  const differences = smoothedOf(read).map((sides) => differenceShown(sides, sight, development));
  const hazeShare = (side: Side) => medianOf(readings.map((reading) => glowShare(model, reading[side].bins)));
  const off = Math.hypot(numerical_stops, input_stops);
  const shares = [-off, 0, off].map((by) =>
    shareOver(
      samples.map((s) => s.stops + by),
      STANDS_OUT_STOPS,
    ),
  );
  return {
    share_over_1_stop,
    share_range: [Math.min(...shares), Math.max(...shares)],
    median_stops,
    lighter_share,
    merges: share_over_1_stop < LEAST_SHARE,
    deltaE: medianOf(differences.map(({ whole }) => whole)),
    deltaE_of_colour: medianOf(differences.map(({ ofColour }) => ofColour)),
    haze: { inside: hazeShare('inside'), outside: hazeShare('outside') },
    uncertainty: { numerical_stops, input_stops },
    worst: reports.reduce((worst, r) => (Math.abs(r.stops) < Math.abs(worst.stops) ? r : worst)),
    stretches: reports,
    samples,
  };
}

function stretchReport(
  model: LightModel,
  readings: readonly EdgeReading[],
  stretch: Stretch<string>,
  sight: CameraSight,
  middle_u: number,
): StretchReport {
  const { stops, numerical_stops, merged } = pieceContrast(
    stretch.cells.map((i) => readings[i]!),
    sight,
  );
  const cells = stretch.cells.map((i) => readings[i]!.cell);
  const { u, v } = cells[Math.floor(cells.length / 2)]!.place;
  return {
    part: stretch.key,
    side: u < middle_u ? 'frame left' : 'frame right',
    stops,
    numerical_stops,
    merged,
    pixel: [u, v],
    behind: behindName(model, cells),
    behindGlow: glowShare(model, sumOfBins(stretch.cells.map((i) => readings[i]!.outside))) > 0.5,
    length: cells.length / readings.length,
  };
}

function behindName({ owners }: LightModel, cells: readonly EdgeCell[]): string {
  const counts = new Map<number, number>();
  for (const { behind } of cells) counts.set(behind, (counts.get(behind) ?? 0) + 1);
  const [most] = [...counts].reduce((a, b) => (b[1] > a[1] ? b : a));
  return owners[most]?.name ?? 'the sky';
}

/** Contrast at every cell, smoothed over its neighbours. */
export function samplesOf(read: ReadFigure, sight: CameraSight): SampleReport[] {
  const sides = smoothedOf(read);
  const order = read.stretches.flatMap((stretch) => stretch.cells.map((i) => ({ stretch, i })));
  return order.map(({ stretch, i }, k) => {
    const { u, v } = read.readings[i]!.cell.place;
    const { inside, outside } = sides[k]!;
    return { pixel: [u, v], stops: contrastOf(inside, outside, sight).stops, part: stretch.key };
  });
}

function membersOf({ stretches, readings }: ReadFigure): EdgeReading[][] {
  return stretches.map((stretch) => stretch.cells.map((i) => readings[i]!));
}

function smoothedOf(read: ReadFigure) {
  return membersOf(read).flatMap((members) => members.map((_, at) => smoothedSides(members, at)));
}

const DISPLAY_WHITE = xyzFromLinearRgb([1, 1, 1]);

/**
 * CIEDE2000 between the two sides as a display shows the developed frame: white-balanced, through the tone curve, for an
 * eye adapted to the display's white. Middle grey is L* 49.5 in it, and what is black or white to the camera is one colour.
 * `ofColour` is the same with the brighter side dimmed to the darker, so that only their colours differ.
 */
function differenceShown(
  { inside, outside }: { readonly inside: EdgeSide; readonly outside: EdgeSide },
  { zero_cd_m2 }: CameraSight,
  development: Development,
): { readonly whole: number; readonly ofColour: number } {
  const develop = displayColour(development);
  const xyz = (side: EdgeSide) =>
    xyzFromLinearRgb(develop(meanRgb(side).map((v) => v / zero_cd_m2) as unknown as LinearRgb));
  const [a, b] = [xyz(inside), xyz(outside)];
  const least = Math.min(a[1], b[1]);
  const dimmed = (colour: Tristimulus) =>
    (colour[1] > 0 ? colour.map((v) => (v * least) / colour[1]) : colour) as unknown as Tristimulus;
  return {
    whole: colourDifference_dE2000(a, b, DISPLAY_WHITE),
    ofColour: colourDifference_dE2000(dimmed(a), dimmed(b), DISPLAY_WHITE),
  };
}

/** Part of a reading that is glow of the haze, of all lamps. */
function glowShare({ lamps }: LightModel, bins: LightBins): number {
  let [glow, whole] = [0, 0];
  for (let bin = 0; bin < bins.length; bin += 3) {
    const L = luminance(bins[bin]!, bins[bin + 1]!, bins[bin + 2]!);
    whole += L;
    if (lamps.some((_, lamp) => lampBin(lamp, HAZE) === bin)) glow += L;
  }
  return whole > 0 ? glow / whole : 0;
}

function sumOfBins(
  lights: readonly { readonly bins: Float64Array; readonly paths: Float64Array }[],
): Float64Array {
  const sum = new Float64Array(lights[0]!.bins.length);
  for (const { bins, paths } of lights) {
    const n = paths.reduce((total, count) => total + count, 0);
    if (n > 0) for (let k = 0; k < sum.length; k++) sum[k]! += bins[k]! / n;
  }
  return sum;
}

function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = (sorted.length - 1) / 2;
  return (sorted[Math.floor(middle)]! + sorted[Math.ceil(middle)]!) / 2;
}
