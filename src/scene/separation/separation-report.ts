import type { CameraExposure, Calibration as MeterConstants } from '../../core/exposure/zero.ts';
import { type Zero, zeroOf } from '../../core/exposure/zero.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import type { Development } from '../../core/picture/develop.ts';
import {
  type CameraSight,
  contrastOf,
  type Merged,
  meanContrastError_stops,
} from '../../core/separation/contrast.ts';
import { contrastInputUncertainty_stops } from '../../core/separation/contrast-uncertainty.ts';
import type { EdgeCell } from '../../core/separation/edge-cell.ts';
import type { Side } from '../../core/separation/edge-light.ts';
import { outlineSummary, STANDS_OUT_STOPS, shareOver } from '../../core/separation/outline-summary.ts';
import {
  type EdgeReading,
  pieceContrast,
  sidesOf,
  smoothedSides,
} from '../../core/separation/read-outline.ts';
import type { Stretch } from '../../core/separation/stretch.ts';
import { calibrationOf, DEFAULT_WHITE_BALANCE_K, exposureOf } from '../camera/scene-camera.ts';
import { conversionOf, monochromeWords } from '../monochrome/monochrome.ts';
import { glowShare, lampOfGlow } from './glow-share.ts';
import { type ReadFigure, type ReadSeparation, sightOf } from './read-separation.ts';
import { differenceShown } from './shown-difference.ts';

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
  /** By readings of the night; null where lamps and haze are as planned. */
  readonly corrected: { readonly readings: number } | null;
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
  readonly haze: {
    readonly inside: number;
    readonly outside: number;
    /** The lamp that most of the glow before the figure comes from; null without any. */
    readonly lamp: { readonly id: string; readonly name: string } | null;
  };
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

/** A median is so much less sure than a mean, for errors of the normal kind. */
const MEDIAN_OVER_MEAN = 1.25;
/** Less of the outline than this standing out by a stop, and the figure merges: common practice, no source. */
export const LEAST_SHARE = 0.5;

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
    corrected: read.correctedBy > 0 ? { readings: read.correctedBy } : null,
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
    haze: {
      inside: hazeShare('inside'),
      outside: hazeShare('outside'),
      lamp: lampOfGlow(model, sumOfBins(readings.map(({ inside }) => inside))),
    },
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
