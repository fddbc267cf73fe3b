import { metresFromFeet } from '../core/units/length.ts';
import type { RiggingReport, Wind } from '../scene/rigging/rigging-scene.ts';
import type { StandScreen } from '../scene/rigging/stand-screen.ts';
import { cautionsFor } from './cautions.ts';
import { decimal, listed } from './power-words.ts';
import type { TablesSheet } from './tables-sheet.ts';
import { metresText, tapeText } from './tape-text.ts';

/** The rigging sheet, ready to print. `warnings` are the first of its findings. */
export interface RiggingSheet extends TablesSheet {
  readonly warnings: readonly string[];
  readonly cautions: readonly string[];
}

export function riggingSheet(report: RiggingReport): RiggingSheet {
  const { wind, stands } = report;
  const warnings = [
    ...stands.filter((stand) => stand.tooHigh).map(heightSentence),
    ...stands.filter((stand) => stand.tips).map((stand) => tipSentence(stand, wind.speed_m_s!)),
    ...(wind.speed_m_s === null
      ? [
          'No wind given, so nothing is said of tipping but the wind that begins it: --wind, or "wind" of the site.',
        ]
      : []),
    ...missingSentences(stands),
  ];
  const cautions = cautionsFor('stands');
  return {
    title: report.title,
    heading: [
      report.setup === null ? 'Base' : `Setup ${report.setup}`,
      'stands and wind',
      windText(wind),
      'screening only',
    ].join(' · '),
    tables: [{ leftColumns: 1, rows: [HEADS, ...stands.map(standRow)] }],
    findings: [...warnings, ...notes(stands)],
    footer: [
      `Wind: ½·${report.airDensity_kg_m3}·v²·${report.dragCoefficient}·A broadside at the lamp’s height, against (head + stand + ballast)·9.81·r/2 for three legs: ` +
        'over the line between two feet, the worst direction. Needed ballast is beside head and stand.',
      'Margin: held over moment, without any safety factor. Masses not given count as nothing; without wind area or feet nothing is said of tipping.',
      'Heights are over what is modelled below the lamp, or over 0. Stands within a vehicle are taken to be out of the wind.',
      ...cautions,
    ],
    warnings,
    cautions,
  };
}

const HEADS = [
  'Lamp',
  'height',
  'stand',
  'wind',
  'moment',
  'held',
  'ballast',
  'needed',
  'tips from',
  'answer',
];

function standRow(stand: StandScreen): string[] {
  const unit = (value: number | null, word: string) =>
    value === null ? '?' : `${Math.round(value)} ${word}`;
  if (!stand.onStand)
    return [
      stand.name,
      metresText(stand.height_m),
      ...new Array(HEADS.length - 3).fill(''),
      'no stand given',
    ];
  const windless = stand.sheltered ? 'sheltered' : null;
  return [
    stand.name,
    metresText(stand.height_m),
    `to ${metresText(stand.maxHeight_m!)}`,
    windless ?? unit(stand.force_N, 'N'),
    windless ? '' : unit(stand.moment_Nm, 'N·m'),
    windless ? '' : unit(stand.held_Nm, 'N·m'),
    `${decimal(stand.ballast_kg, 1)} kg`,
    windless ? '' : stand.neededBallast_kg === null ? '?' : `${Math.ceil(stand.neededBallast_kg - 1e-6)} kg`,
    windless ? '' : stand.tipsAt_m_s === null ? '?' : `${stand.tipsAt_m_s.toFixed(1)} m/s`,
    answerOf(stand),
  ];
}

function answerOf(stand: StandScreen): string {
  const faults = [...(stand.tooHigh ? ['TOO HIGH'] : []), ...(stand.tips ? ['TIPS'] : [])];
  if (faults.length > 0) return faults.join(', ');
  if (stand.sheltered) return 'reaches';
  if (stand.moment_Nm === null || stand.held_Nm === null) return 'not known';
  return stand.moment_Nm === 0 ? 'no wind' : `margin ${decimal(stand.held_Nm / stand.moment_Nm, 1)}`;
}

function heightSentence(stand: StandScreen): string {
  const over_m = stand.height_m - stand.maxHeight_m!;
  return `${stand.name}: ${tapeText(stand.height_m)} is ${metresText(over_m)} above what its stand reaches, ${tapeText(stand.maxHeight_m!)}.`;
}

function tipSentence(stand: StandScreen, wind_m_s: number): string {
  const from =
    stand.tipsAt_m_s! > 0
      ? `begins to tip at ${speedText(stand.tipsAt_m_s!)}`
      : 'has no known mass to stand against wind';
  return (
    `${stand.name}: ${from}; in ${speedText(wind_m_s)} it needs ${Math.ceil(stand.neededBallast_kg! - 1e-6)} kg of ballast, ` +
    `${Math.ceil(stand.moreBallast_kg! - 1e-6)} kg more than it has, and then has no margin. Lower it, spread wider legs, or take it down.`
  );
}

/** Lamps that lack the same are named together. */
function missingSentences(stands: readonly StandScreen[]): string[] {
  const lists = new Set(stands.filter((s) => s.missing.length > 0).map((s) => s.missing.join('|')));
  return [...lists].map((list) => {
    const names = listed(stands.filter((s) => s.missing.join('|') === list).map((s) => s.name));
    return list === 'stand'
      ? `No stand given, so not screened: ${names}.`
      : `Missing for ${names}: ${listed(list.split('|'))}.`;
  });
}

function notes(stands: readonly StandScreen[]): string[] {
  const known = stands.filter((stand) => stand.tipsAt_m_s !== null);
  if (known.length < 2) return [];
  const first = known.reduce((a, b) => (b.tipsAt_m_s! < a.tipsAt_m_s! ? b : a));
  return [`First to go as the wind rises: ${first.name}, at ${speedText(first.tipsAt_m_s!)}.`];
}

function windText({ speed_m_s, from }: Wind): string {
  if (speed_m_s === null) return 'no wind given';
  const kind = from === 'gusts' ? 'gusts of ' : from === 'steady' ? 'steady wind of ' : 'wind of ';
  return `${kind}${speedText(speed_m_s)}`;
}

/** Metres per second, and in what forecasts say. */
function speedText(speed_m_s: number): string {
  const mph = (speed_m_s * 3600) / metresFromFeet(5280);
  return `${decimal(speed_m_s, 1)} m/s (${Math.round(speed_m_s * 3.6)} km/h, ${Math.round(mph)} mph)`;
}
