import type { ChangedLamp } from '../scene/readings/as-taken.ts';
import { HAZE, type ReadingResidual } from '../scene/readings/corrections.ts';
import type { NextReading } from '../scene/readings/next-reading.ts';
import type { ReadingsReport } from '../scene/readings/readings-report.ts';
import { readingText, significant } from './exposure-sheet.ts';
import { signed } from './signed-text.ts';
import type { Names, TablesSheet } from './tables-sheet.ts';

/** What the night's readings say about the plan, ready to print. */
export function readingsSheet(report: ReadingsReport, names: Names): TablesSheet {
  const { readings, lamps, haze } = report;
  const changed = lamps.filter((lamp) => lamp.metered || Math.abs(lamp.output_stops) >= 0.05);
  const unmetered = changed.filter((lamp) => !lamp.metered);
  return {
    title: report.title,
    heading: headingOf(report),
    tables:
      readings.length === 0
        ? []
        : [
            {
              leftColumns: 3,
              rows: [
                ['Reading', 'at', 'lamps alight', 'measured lx', 'planned', 'off', 'now predicted', 'off'],
                ...readings.map((reading) => [
                  reading.name,
                  `${names.mark(reading.mark)} (${reading.receptor})`,
                  reading.lamps.map(names.lamp).join(' + '),
                  readingText(reading.measured_lx, 'lx'),
                  readingText(reading.planned_lx, 'lx'),
                  signed(reading.plannedResidual_stops, 2),
                  readingText(reading.predicted_lx, 'lx'),
                  signed(reading.residual_stops, 2),
                ]),
              ],
            },
            {
              leftColumns: 1,
              rows: [
                ['Corrected', 'from plan', '± was', '± now', 'readings alone'],
                ...changed.map((lamp) => [
                  lamp.name,
                  `${signed(lamp.output_stops, 2)} stop`,
                  plusMinus(lamp.planned_stops),
                  plusMinus(lamp.plusMinus_stops),
                  lamp.alone_stops === null ? 'cannot tell' : `${signed(lamp.alone_stops, 2)} stop`,
                ]),
                ...(haze
                  ? [
                      [
                        'Haze',
                        `visibility ${metres(haze.planned_m)} → ${metres(haze.visibility_m)}`,
                        plusMinus(haze.plannedPlusMinus_stops),
                        plusMinus(haze.plusMinus_stops),
                        haze.alone_m === null ? 'cannot tell' : metres(haze.alone_m),
                      ],
                    ]
                  : []),
              ],
            },
          ],
    findings: [
      ...report.unused.map(({ id, why }) => `${id}: left out, ${WHY_LEFT_OUT[why]}`),
      ...readings
        .filter((reading) => Math.abs(reading.plannedResidual_stops) > DOUBTFUL_stops)
        .map(
          (reading) =>
            `${reading.name}: ${signed(reading.plannedResidual_stops, 1)} stops from the plan, more than lamps and haze usually differ. ` +
            'Check the figure, which lamps were alight and how they stood: all answers go by it.',
        ),
      ...readings
        .filter((reading) => reading.outlier)
        .map(
          (reading) =>
            `${reading.name}: still ${signed(reading.residual_stops, 2)} stop off, more than a third. ` +
            'Meter again; check which lamps were alight, the scrims, the mark and where the meter pointed.',
        ),
      ...takenTexts(readings, names),
      ...report.together.map((group) => togetherText(group, names)),
      ...(report.byHand ? [byHandText(report.byHand, report.lamps)] : []),
      ...(unmetered.length > 0
        ? [
            `Not metered, moved with a lamp of the same head: ${unmetered.map((lamp) => lamp.name).join(', ')}. ` +
              'Heads of a kind share most of their error (common practice, no source).',
          ]
        : []),
      report.next
        ? nextText(report.next, names)
        : 'No further single reading would narrow the marks by more than a few hundredths of a stop.',
    ],
    footer: [
      'Off is measured over predicted, in stops: + more light than predicted. All light is counted, sky included.',
      '± is in stops: a reading ±0.1 (common practice, no source), a lamp as its photometry, haze ±1 of its extinction.',
      'Corrected is the likeliest between plan and readings; "readings alone" is what they say without the plan.',
      'A reading counts for its lamps as they stood then, and its correction goes with the lamp. What is changed in the file by hand is not remembered: meter again.',
    ],
  };
}

/** Past this a reading is heard but doubted. */
const DOUBTFUL_stops = 2;

const WHY_LEFT_OUT = {
  dark: '0 lx tells nothing. Meter nearer, or leave the reading out.',
  unlit:
    'by the plan no light of its lamps reaches the mark. Check the lamps named, their aim and what is in the way.',
  'far-off':
    'more than 5 stops from the plan. A slip of the pen, another lamp alight, or not the lamp that was planned: mend the figure or the plan.',
} as const;

function headingOf({ readings, unused, fit }: ReadingsReport): string {
  if (!fit) return unused.length > 0 ? 'No reading that can be used' : 'No readings yet';
  const count = `${readings.length} ${readings.length === 1 ? 'reading' : 'readings'}`;
  return `${count} · off by ${fit.planned_stops.toFixed(2)} stop on the plan, ${fit.corrected_stops.toFixed(2)} after correction (root mean square)`;
}

/** One sentence for readings with which the same is to be said. */
function takenTexts(readings: readonly ReadingResidual[], names: Names): string[] {
  const called = new Map<string, string[]>();
  for (const { name, changedSince } of readings) {
    if (changedSince.length === 0) continue;
    const lamps = changedSince.map((lamp) => `${names.lamp(lamp.taken.lamp)} ${stoodText(lamp)}`).join('; ');
    called.set(lamps, [...(called.get(lamps) ?? []), name]);
  }
  return [...called].map(([lamps, of]) => `${of.join(', ')}: taken with ${lamps}.`);
}

const REMEMBERED_WORDS = { position_m: 'place', aim_m: 'aim', roll_deg: 'roll', level: 'level' } as const;

function stoodText({ taken, changed }: ChangedLamp): string {
  const words = changed.flatMap((field) => (field === 'filters' ? [] : REMEMBERED_WORDS[field]));
  const filters = taken.filters?.length ? 'behind its earlier filters' : 'without the filters it has now';
  return [
    ...(words.length > 0 ? [`at its earlier ${listed(words)}`] : []),
    ...(changed.includes('filters') ? [filters] : []),
  ].join(', ');
}

function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

function togetherText(group: readonly string[], names: Names): string {
  const called = group.map((id) => (id === HAZE ? 'haze' : names.lamp(id)));
  const list = listed(called);
  const lamp = names.lamp(group.find((id) => id !== HAZE)!);
  const mend = group.includes(HAZE)
    ? `Meter ${lamp} alone at a second distance, as near or as far as can be.`
    : `Meter ${lamp} alone.`;
  return `These readings cannot tell ${list} apart: more of one explains them as well as less of the other. ${mend}`;
}

function byHandText(
  { visibility_m, lamps }: NonNullable<ReadingsReport['byHand']>,
  names: ReadingsReport['lamps'],
): string {
  const told = lamps.flatMap((stops, i) =>
    stops === null ? [] : [`, ${names[i]!.name} ${signed(stops, 2)} stop`],
  );
  return (
    `By hand, inverse square and haze law alone: visibility ${metres(visibility_m)}${told.join('')}. ` +
    'That leaves out what haze scatters into the meter, so it takes the haze for thinner than it is.'
  );
}

function nextText({ lamp, at, now_stops, then_stops }: NextReading, names: Names): string {
  const where =
    'mark' in at
      ? `at ${names.mark(at.mark)} (${at.receptor})`
      : `on its axis, facing it, ${at.onAxis_m.toFixed(1)} m from its face (add a mark there)`;
  return (
    `The reading that would tell most: ${names.lamp(lamp)} alone, ${where}. ` +
    `± of the marks from ${now_stops.toFixed(2)} to ${then_stops.toFixed(2)} stop (root mean square).`
  );
}

function plusMinus(stops: number): string {
  return `±${stops.toFixed(stops < 0.095 ? 2 : 1)}`;
}

function metres(length_m: number): string {
  return `${significant(length_m)} m`;
}
