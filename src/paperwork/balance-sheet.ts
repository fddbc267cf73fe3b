import { feetAndInchesFromMetres } from '../core/units/length.ts';
import type { BalanceReport, LevelReport, WantReport } from '../scene/balance/balance-scene.ts';
import type { Remedy } from '../scene/balance/remedies.ts';
import type { WhiteBalanceReport } from '../scene/balance/white-balance.ts';
import { exposureHeading } from './exposure-sheet.ts';
import { signed } from './signed-text.ts';
import type { Names, TablesSheet } from './tables-sheet.ts';

/** Levels for wanted stops, ready to print. */
export function balanceSheet(report: BalanceReport, names: Names): TablesSheet {
  const changed = report.lamps.filter((lamp) => lamp.level !== lamp.level_now);
  return {
    title: report.title,
    heading: exposureHeading(report),
    tables: [
      {
        leftColumns: 2,
        rows: [
          ['Wanted', 'of', 'stops', 'now', 'then', 'off by', '±'],
          ...report.wants.map((want) => [
            names.mark(want.mark),
            want.lamp === null ? 'all light' : names.lamp(want.lamp),
            stops1(want.wanted_stops),
            stops1(want.now_stops),
            stops1(want.then_stops),
            want.reached ? '–' : stops1(want.residual_stops),
            `±${Math.hypot(want.uncertainty.numerical_stops, want.uncertainty.input_stops).toFixed(1)}`,
          ]),
        ],
      },
      {
        leftColumns: 1,
        rows: [
          ['Lamp', 'level now', 'level wanted', 'change'],
          ...report.lamps.map((lamp) => [
            lamp.name,
            percent(lamp.level_now),
            lamp.level === lamp.level_now ? 'stays' : levelText(lamp),
            changeText(lamp),
          ]),
        ],
      },
      {
        leftColumns: 1,
        rows: [
          ['Mark, all light', 'now', 'then'],
          ...report.marks.map((mark) => [mark.name, stops1(mark.now_stops), stops1(mark.then_stops)]),
        ],
      },
    ],
    findings: [
      ...changed.filter((lamp) => lamp.nets_stops > 0).map(netsSentence),
      ...report.wants.filter((want) => !want.reached).flatMap((want) => shortfallSentences(want, names)),
    ],
    footer: [
      "Stops are over the camera's zero for the mark's receptor. Levels are shares of full light, not marks on a dimmer.",
      '± is in stops, of the light counted on: the computation at 95 % and the inputs in quadrature. Meter, then trim.',
      'Planning aid only. Local codes, venue rules and competent people override every figure.',
    ],
  };
}

/** The camera's white balance between cool and warm lamps, ready to print. */
export function whiteBalanceSheet(report: WhiteBalanceReport, names: Names): TablesSheet {
  const { split } = report;
  const named = (ids: readonly string[]) => ids.map(names.lamp).join(', ');
  const apart = report.lamps.filter((lamp) => lamp.mired === null).map((lamp) => lamp.name);
  return {
    title: report.title,
    heading: [
      report.setup === null ? 'Base' : `Setup ${report.setup}`,
      `camera ${report.camera}`,
      `white balance ${kelvin(report.whiteBalance_K)}`,
    ].join(' · '),
    tables: [
      {
        leftColumns: 1,
        rows: [
          [
            'Lamp',
            'colour',
            'filters',
            `from ${kelvin(report.whiteBalance_K)}`,
            ...(split ? ['from even'] : []),
          ],
          ...report.lamps.map((lamp) => [
            lamp.name,
            lamp.cct_K === null ? 'not a white' : kelvin(lamp.cct_K),
            lamp.filterLoss_stops > 0.005 ? `${signed(-lamp.filterLoss_stops, 2)} stop` : '–',
            mired(lamp.offset_mired),
            ...(split ? [mired(lamp.splitOffset_mired)] : []),
          ]),
        ],
      },
    ],
    findings: [
      split
        ? `Even split: ${kelvin(split.whiteBalance_K)}. Cool (${named(split.cool)}) ${mired(-split.split_mired)}, ` +
          `warm (${named(split.warm)}) ${mired(split.split_mired)}.`
        : report.lamps.length === 1
          ? 'Cannot split into cool and warm: one lamp is on. It takes two.'
          : 'Cannot split into cool and warm: the lamps that are on are all of nearly one colour. Gel some of them.',
      ...(apart.length > 0
        ? [`Left out, because a saturated colour has no colour temperature: ${apart.join(', ')}.`]
        : []),
    ],
    footer: [
      'Offsets are in mired (10⁶/K), − toward blue, + toward orange: 20 is a just visible tint, 100 a strong one. ±10.',
      'Colour of each lamp is that of its light after filters; the group counts by its mean.',
    ],
  };
}

/** One decimal: a tenth is what a meter repeats to. */
function stops1(stops: number): string {
  return signed(stops, 1);
}

function mired(value: number | null): string {
  return value === null ? '–' : signed(value, 0);
}

function kelvin(cct_K: number): string {
  return `${Math.round(cct_K / 10) * 10} K`;
}

/** Whole percents; one decimal under ten, because half of it may hang on that. */
function percent(level: number): string {
  const share = 100 * level;
  return `${share < 9.95 && share > 0 ? Number(share.toFixed(1)) : Math.round(share)} %`;
}

function levelText(lamp: LevelReport): string {
  return lamp.nets_stops > 0 ? `${percent(lamp.level)}: nets` : percent(lamp.level);
}

function changeText({ level, level_now }: LevelReport): string {
  if (level === level_now) return '';
  if (level === 0) return 'off';
  if (level_now === 0) return 'up from nothing';
  return `${stops1(Math.log2(level / level_now))} stop`;
}

function netsSentence(lamp: LevelReport): string {
  return (
    `${lamp.name} is a discharge head, which dims to about half and no further (common practice, no source): ` +
    `put in ${netsText(lamp.nets_stops)} of scrims or nets and set ${percent(lamp.dimmer)}.`
  );
}

function netsText(stops: number): string {
  const whole = Math.floor(stops);
  const half = stops > whole ? '½' : '';
  return `${whole === 0 ? '' : whole}${half} ${stops > 1 ? 'stops' : 'stop'}`;
}

function shortfallSentences(want: WantReport, names: Names): string[] {
  const what = `${names.mark(want.mark)}, ${want.lamp === null ? 'all light' : names.lamp(want.lamp)}`;
  const short = Math.abs(want.residual_stops).toFixed(1);
  switch (want.why) {
    case 'full': {
      const head = `${what}: ${short} stop short at full level.`;
      const able = want.remedies.filter((remedy) => remedy.reached);
      const some = want.remedies.filter((remedy) => !remedy.reached);
      return [
        able.length > 0
          ? `${head} Any one of these does it:`
          : `${head} Cannot be had with this lamp by level, place, height or filter alone.`,
        ...able.map((remedy) => `  ${remedyText(remedy, names)}`),
        ...(some.length > 0 ? ['  Worth something, but not enough alone:'] : []),
        ...some.map((remedy) => `  ${remedyText(remedy, names)}`),
      ];
    }
    case 'other-light':
      return [`${what}: cannot. With every lamp down it still reads ${short} stop over: sky.`];
    default:
      return [
        `${what}: cannot be had together with the other wants; ${short} stop ` +
          `${want.residual_stops < 0 ? 'under' : 'over'} is the best compromise in levels. Flag one mark, net half of the beam, or add a lamp.`,
      ];
  }
}

function remedyText(remedy: Remedy, names: Names): string {
  const outcome = `${stops1(remedy.outcome_stops)} at level ${percent(remedy.level)}`;
  const lamp = names.lamp(remedy.lamp);
  switch (remedy.change) {
    case 'nearer':
      return `${lamp} nearer along its axis: ${tape(remedy.distance_m)} from the mark, at ${point(remedy.position_m)} → ${outcome}`;
    case 'height':
      return `${lamp} to ${tape(remedy.height_m)} high, same stand, same aim → ${outcome}`;
    case 'without-filter':
      return `${lamp} without ${names.filter(remedy.filter)}${remedy.cct_K === null ? '' : `, then ${kelvin(remedy.cct_K)}`} → ${outcome}`;
    case 'more-heads':
      return `${remedy.count} such heads side by side → ${outcome}`;
  }
}

/** Metres, and as a tape in feet has it. */
function tape(length_m: number): string {
  const { feet, inches } = feetAndInchesFromMetres(length_m);
  return `${length_m.toFixed(2)} m (${feet} ft ${inches} in)`;
}

function point(position_m: readonly number[]): string {
  return `(${position_m.map((v) => v.toFixed(2).replace('-', '\u2212')).join(', ')})`;
}
