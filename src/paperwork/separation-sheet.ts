import { EDGE_BAND } from '../core/separation/edge-cell.ts';
import type { ConversionRow } from '../scene/separation/conversions.ts';
import {
  type FigureSeparation,
  LEAST_SHARE,
  type OutlineReport,
  type SeparationReport,
  type StretchReport,
} from '../scene/separation/separation-report.ts';
import type { WardrobeRow } from '../scene/separation/wardrobe.ts';
import { correctedText } from './corrected-text.ts';
import { exposureHeading, significant } from './exposure-sheet.ts';
import { signed } from './signed-text.ts';
import type { SheetTable, TablesSheet } from './tables-sheet.ts';

/** What may be asked on top, by figure. */
export interface WhatIf {
  readonly wardrobe?: ReadonlyMap<string, readonly WardrobeRow[]> | undefined;
  readonly conversions?: ReadonlyMap<string, readonly ConversionRow[]> | undefined;
}

/** How the figures stand out from what is behind them, ready to print. */
export function separationSheet(
  report: SeparationReport,
  { wardrobe, conversions }: WhatIf = {},
): TablesSheet {
  const seen = report.figures.filter((figure) => figure.outline !== null);
  const { range, exposure } = report;
  const names = new Map(report.figures.map(({ id, name }) => [id, name]));
  return {
    title: report.title,
    heading: `${exposureHeading(report)} · ${report.monochrome === null ? 'colour' : `monochrome, ${report.monochrome}`}`,
    tables: [
      ...(seen.length > 0 ? [figuresTable(seen)] : []),
      ...tablesOf(wardrobe, names, wardrobeTable),
      ...tablesOf(conversions, names, conversionTable),
    ],
    findings: [
      ...report.figures.flatMap(figureSentences),
      ...sentencesOf(wardrobe, names, wardrobeSentence),
      ...sentencesOf(conversions, names, conversionSentence),
    ],
    footer: [
      'Stops are the figure over what is behind it, just inside and just outside its outline ' +
        `(${Math.round(1000 * EDGE_BAND)}‰ of the frame’s height to either side), surface and haze; minus: the figure is darker. ` +
        'Left and right are the figure’s own.',
      `Under 1 stop is marginal. A figure merges when less than ${percent(LEAST_SHARE)} of its outline that is seen stands out by 1 stop.`,
      `To this camera all is black under ${signed(range.floor_stops, 1)} stops and white over ${signed(range.white_stops, 1)} from middle grey ` +
        `(${significant(exposure.zero.luminance_cd_m2)} cd/m²): two blacks or two whites do not separate.`,
      'ΔE is CIEDE2000, brightness included, as the frame shows the two sides, white-balanced and through the tone curve: about 1 is just visible.',
      '± is in stops: the computation at 95 %, and the lamps, the haze and ½ stop for what cloth and background reflect, in quadrature. The share is given again for every edge off by that much, either way.',
      ...(report.corrected ? [correctedText(report.corrected.readings)] : []),
      ...(wardrobe ? [WARDROBE_NOTE] : []),
      ...(conversions ? [CONVERSION_NOTE] : []),
      'Planning aid only. Spot both sides of the edge on the night.',
    ],
  };
}

const WARDROBE_NOTE =
  'Cloths are worn above and below the waist, the best first; lit anew on the figure, background as it was, each row to about ±0.3 stop.';
const CONVERSION_NOTE =
  'Conversions are in linear light after white balance, the tone curve after. Noise is against plain luminance without white balance, with equal noise in red, green and blue.';

function figuresTable(figures: readonly FigureSeparation[]): SheetTable {
  return {
    leftColumns: 1,
    rows: [
      ['Figure', 'over 1 stop', 'within ±', 'median', '±', 'lighter', 'ΔE', 'seen', 'worst stretch', 'stops'],
      ...figures.map(({ name, outline, hidden, outOfFrame }) => {
        const { share_over_1_stop, share_range, median_stops, lighter_share, deltaE, worst } = outline!;
        return [
          name,
          percent(share_over_1_stop),
          `${percent(share_range[0])} to ${percent(share_range[1])}`,
          median_stops.toFixed(1),
          `±${offBy(outline!).toFixed(1)}`,
          percent(lighter_share),
          deltaE.toFixed(0),
          percent((1 - outOfFrame) * (1 - hidden)),
          placeText(worst),
          signed(worst.stops, 1),
        ];
      }),
    ],
  };
}

function figureSentences({ name, outline, hidden, outOfFrame }: FigureSeparation): string[] {
  if (!outline)
    return [
      outOfFrame > 0.999
        ? `${name}: out of this camera’s frame, so nothing to separate.`
        : `${name}: hidden behind other things (${percent(hidden)} of the outline in frame), so nothing to separate.`,
    ];
  const { worst, merges } = outline;
  const merging = merges ? ' Merges.' : '';
  return [
    `${name}: ${percent(outline.share_over_1_stop)} of the outline stands out by 1 stop or more ` +
      `(±${offBy(outline).toFixed(1)} stop).${merging} Worst: ${placeText(worst)}, ${worstText(worst)}.`,
    ...(merges && outline.deltaE_of_colour >= COLOUR_HELPS
      ? [
          `${name}: colour helps where brightness does not (ΔE ${outline.deltaE_of_colour.toFixed(0)} at equal brightness).`,
        ]
      : []),
    ...(merges && outline.haze.inside > 0.5
      ? [
          `${name}: ${percent(outline.haze.inside)} of what is seen on the figure is haze glowing before it. ` +
            `Thin the haze there or turn ${outline.haze.lamp?.name ?? 'the lamp'} off the line of sight before changing cloth.`,
        ]
      : []),
  ];
}

/** A difference in colour that an audience sees without being shown: common practice, no source. */
const COLOUR_HELPS = 10;

function offBy({ uncertainty: { numerical_stops, input_stops } }: OutlineReport): number {
  return Math.hypot(numerical_stops, input_stops);
}

function placeText({ part, side }: StretchReport): string {
  return `${part} (${side})`;
}

function worstText({ stops, behind, behindGlow, merged, numerical_stops }: StretchReport): string {
  const background = behindGlow ? `the glow of haze before ${behind}` : `${behind} behind it`;
  if (merged === 'black') return `black against ${behind}, black too (both under the camera’s noise floor)`;
  if (merged === 'white') return `white against ${behind}, white too (both over what the camera can show)`;
  const size = Math.abs(stops);
  const verdict = size + numerical_stops < 1 ? ' (merges)' : size < 1 ? ' (marginal)' : '';
  if (size < 0.05) return `as bright as ${background}${verdict}`;
  const stopWord = size < 1.05 ? 'stop' : 'stops';
  return `${size.toFixed(1)} ${stopWord} ${stops < 0 ? 'darker' : 'lighter'} than ${background}${verdict}`;
}

function tablesOf<Row>(
  rows: ReadonlyMap<string, readonly Row[]> | undefined,
  names: ReadonlyMap<string, string>,
  table: (name: string, rows: readonly Row[]) => SheetTable,
): SheetTable[] {
  return [...(rows ?? [])].filter(([, own]) => own.length > 0).map(([id, own]) => table(names.get(id)!, own));
}

function sentencesOf<Row>(
  rows: ReadonlyMap<string, readonly Row[]> | undefined,
  names: ReadonlyMap<string, string>,
  sentence: (name: string, rows: readonly Row[]) => string,
): string[] {
  return [...(rows ?? [])]
    .filter(([, own]) => own.length > 0)
    .map(([id, own]) => sentence(names.get(id)!, own));
}

function wardrobeTable(name: string, rows: readonly WardrobeRow[]): SheetTable {
  return {
    leftColumns: 1,
    rows: [
      [`${name} in`, 'over 1 stop', 'median', 'lighter', 'worst stretch', 'stops'],
      ...rows.map((row) => [
        row.worn ? `${row.name} (worn)` : row.name,
        percent(row.share_over_1_stop),
        row.median_stops.toFixed(1),
        percent(row.lighter_share),
        row.worst.part,
        signed(row.worst.stops, 1),
      ]),
    ],
  };
}

/** Rows that differ by less than this part of the outline are as good as each other. */
const WORTH_CHANGING = 0.05;

function wardrobeSentence(name: string, rows: readonly WardrobeRow[]): string {
  const best = rows[0]!;
  const worn = rows.find((row) => row.worn);
  const share = percent(best.share_over_1_stop);
  if (best.share_over_1_stop < LEAST_SHARE)
    return `${name}: no cloth keeps this figure from merging; ${best.name} comes nearest (${share} over 1 stop). Light the edge or what is behind it.`;
  if (worn && best.share_over_1_stop - worn.share_over_1_stop < WORTH_CHANGING)
    return `${name}: what is worn reads as well as any cloth (${percent(worn.share_over_1_stop)} over 1 stop).`;
  const against = worn ? `, against ${percent(worn.share_over_1_stop)} as worn` : '';
  return `${name}: ${best.name} reads best (${share} over 1 stop${against}).`;
}

function conversionTable(name: string, rows: readonly ConversionRow[]): SheetTable {
  return {
    leftColumns: 1,
    rows: [
      [`${name} in monochrome`, 'over 1 stop', 'median', 'lighter', 'noise'],
      ...rows.map((row) => [
        row.conversion,
        percent(row.share_over_1_stop),
        row.median_stops.toFixed(1),
        percent(row.lighter_share),
        `${signed(row.noise_stops, 1)} stop`,
      ]),
    ],
  };
}

function conversionSentence(name: string, rows: readonly ConversionRow[]): string {
  const best = rows[0]!;
  const plain = rows.find((row) => row.plain)!;
  if (best.share_over_1_stop - plain.share_over_1_stop < WORTH_CHANGING)
    return `${name}: no conversion separates better than plain luminance (${percent(plain.share_over_1_stop)} over 1 stop).`;
  return (
    `${name}: ${best.conversion} separates best (${percent(best.share_over_1_stop)} over 1 stop, ` +
    `against ${percent(plain.share_over_1_stop)} by plain luminance; noise ${signed(best.noise_stops, 1)} stop).`
  );
}

function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}
