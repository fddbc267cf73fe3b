import { thirdsText } from '../core/exposure/thirds.ts';
import type { Loss } from '../scene/power/loss.ts';
import type { PoweredLamp, PowerReport } from '../scene/power/power-scene.ts';
import { MOST_COUNTED } from '../scene/power/room.ts';
import type { SupplyReport } from '../scene/power/supply-report.ts';
import { type CautionTopic, cautionsFor } from './cautions.ts';
import { powerWarnings } from './power-warnings.ts';
import { amps, decimal, percentText, supplyNames } from './power-words.ts';
import type { SheetTable, TablesSheet } from './tables-sheet.ts';

/** The power sheet, ready to print. `warnings` are the first of its findings. */
export interface PowerSheet extends TablesSheet {
  readonly warnings: readonly string[];
  readonly cautions: readonly string[];
}

export function powerSheet(report: PowerReport): PowerSheet {
  const warnings = powerWarnings(report);
  const cautions = cautionsFor('electrical', ...topicsOf(report));
  return {
    title: report.title,
    heading: [
      report.setup === null ? 'Base' : `Setup ${report.setup}`,
      'power',
      `${Math.round(report.total.load_W)} W, ${Math.round(report.total.load_VA)} VA in all`,
      'every lamp that is on, at full output',
    ].join(' · '),
    tables: [
      ...(report.supplies.length > 0 ? [supplyTable(report)] : []),
      lampTable(report),
      ...roomTables(report),
      ...(report.ifLost ? lossTables(report.ifLost) : []),
    ],
    findings: [...warnings, ...notes(report)],
    footer: [...conventions(report), ...cautions],
    warnings,
    cautions,
  };
}

function topicsOf(report: PowerReport): CautionTopic[] {
  const has = (kind: SupplyReport['kind']) => report.supplies.some((supply) => supply.kind === kind);
  return [
    ...(has('generator') || report.supplies.length === 0 ? (['generators'] as const) : []),
    ...(has('battery') ? (['batteries'] as const) : []),
    ...(report.lamps.some((lamp) => lamp.kind === 'discharge') ? (['heat', 'eyes'] as const) : []),
  ];
}

function supplyTable({ supplies, lamps }: PowerReport): SheetTable {
  return {
    leftColumns: 1,
    rows: [
      ['Supply', 'volts', 'W', 'VA', 'draws', 'for hours', 'used', 'drop', '', 'answer'],
      ...supplies.flatMap((supply) => [
        [
          supply.name,
          String(supply.volts),
          String(Math.round(supply.load_W)),
          String(Math.round(supply.load_VA)),
          amps(supply.current_A),
          supply.limit_A === null ? '?' : amps(supply.limit_A),
          supply.limit_A === null ? '?' : percentText((100 * supply.current_A) / supply.limit_A, 0),
          supply.drop_V === null ? '?' : `${decimal(supply.drop_V, 1)} V`,
          supply.drop_percent === null ? '?' : percentText(supply.drop_percent, 1),
          answerOf(supply, lamps),
        ],
        ...(supply.phases ?? []).map((phase) => [
          `  phase ${phase.phase}`,
          '',
          '',
          '',
          amps(phase.current_A),
          supply.limit_A === null ? '?' : amps(supply.limit_A),
          supply.limit_A === null ? '?' : percentText((100 * phase.current_A) / supply.limit_A, 0),
          '',
          '',
          phase.over ? 'OVER' : '',
        ]),
      ]),
    ],
  };
}

function answerOf(supply: SupplyReport, lamps: readonly PoweredLamp[]): string {
  const faults = [
    ...(supply.trips ? ['TRIPS'] : supply.over ? ['OVER'] : []),
    ...(supply.dropOver ? ['DROP OVER'] : []),
  ];
  if (faults.length > 0) return faults.join(', ');
  const unknown = lamps.some((lamp) => supply.lamps.includes(lamp.id) && lamp.load_VA === null);
  return supply.limit_A === null || unknown ? 'not known' : 'within';
}

function lampTable(report: PowerReport): SheetTable {
  const named = supplyNames(report.supplies);
  return {
    leftColumns: 3,
    rows: [
      ['Lamp', 'Head', 'Supply', 'W', 'PF', 'VA', 'draws', ''],
      ...report.lamps.map((lamp) => [
        lamp.name,
        lamp.headName,
        lamp.supply === null ? 'none' : named(lamp.supply, lamp.phase),
        lamp.load_W === null ? '?' : String(Math.round(lamp.load_W)),
        lamp.powerFactor === null ? '?' : `${lamp.powerFactor}${lamp.powerFactorAssumed ? '*' : ''}`,
        lamp.load_VA === null ? '?' : String(Math.round(lamp.load_VA)),
        lamp.current_A === null || !lamp.on ? '' : amps(lamp.current_A),
        stateOf(lamp),
      ]),
    ],
  };
}

function stateOf(lamp: PoweredLamp): string {
  if (!lamp.on) return 'off';
  return lamp.level < 1 ? `at ${percentText(100 * lamp.level, 0)}` : '';
}

/** How many more of each head: heads down, supplies across. */
function roomTables({ supplies, lamps }: PowerReport): SheetTable[] {
  const known = supplies.filter((supply) => supply.limit_A !== null && supply.kind !== 'battery');
  const heads = known[0]?.room.map((room) => room.head) ?? [];
  if (heads.length === 0) return [];
  const nameOf = (head: string) => lamps.find((lamp) => lamp.head === head)?.headName ?? head;
  return [
    {
      leftColumns: 1,
      rows: [
        ['Room for so many more', ...known.map((supply) => supply.name)],
        ...heads.map((head) => [
          nameOf(head),
          ...known.map((supply) => roomText(supply.room.find((room) => room.head === head)!)),
        ]),
      ],
    },
  ];
}

function roomText({ byCurrent, more }: SupplyReport['room'][number]): string {
  const counted = (n: number | null) => (n === MOST_COUNTED ? `${n} or more` : String(n));
  return more === byCurrent ? counted(more) : `${more} (${counted(byCurrent)} by current, drop over)`;
}

/** So many marks fit beside each other on a page; more go into further tables. */
const MARKS_A_TABLE = 7;

function lossTables(losses: readonly Loss[]): SheetTable[] {
  const marks = losses[0]?.marks.map((mark) => mark.id) ?? [];
  const tables: SheetTable[] = [];
  for (let first = 0; first < marks.length; first += MARKS_A_TABLE) {
    const shown = marks.slice(first, first + MARKS_A_TABLE);
    tables.push({
      leftColumns: 1,
      rows: [
        ['If it goes out, stops', ...shown],
        ...losses.map((loss) => [
          loss.what === 'supply' ? `${loss.name} (${loss.lamps.length} lamps)` : loss.name,
          ...loss.marks
            .slice(first, first + MARKS_A_TABLE)
            .map(({ change_stops }) =>
              change_stops === Number.NEGATIVE_INFINITY ? 'dark' : thirdsText(change_stops),
            ),
        ]),
      ],
    });
  }
  return tables;
}

function notes(report: PowerReport): string[] {
  const { hours, fuel_L_per_kWh } = report.request;
  return [
    ...report.supplies.flatMap((supply) => [
      ...(supply.generator && supply.load_W > 0 ? [generatorNote(supply, hours, fuel_L_per_kWh)] : []),
      ...(supply.battery && supply.load_W > 0 ? [batteryNote(supply)] : []),
      ...(supply.neutral_A === null || supply.load_VA === 0
        ? []
        : [`${supply.name}: the neutral carries ${amps(supply.neutral_A)} of unequal phases.`]),
      ...(supply.dimmed_W < supply.load_W - 0.5
        ? [
            `${supply.name}: at their levels LED heads would bring it to about ${Math.round(supply.dimmed_W)} W. For information; the check counts full output.`,
          ]
        : []),
    ]),
    ...(report.total.load_VA > 0
      ? [
          `One generator for everything: at least ${decimal(report.generator_kVA, 2)} kVA, ${usualSet(report.usualGenerator_kVA)}.`,
        ]
      : []),
  ];
}

function generatorNote(supply: SupplyReport, hours: number, fuel_L_per_kWh: number): string {
  const { needed_kVA, usual_kVA, rating_kVA, fuel_L_per_h, fuel_L, fuelWithReserve_L } = supply.generator!;
  const has = rating_kVA === null ? usualSet(usual_kVA) : `it has ${decimal(rating_kVA, 1)} kVA`;
  return (
    `${supply.name}: needs ${decimal(needed_kVA, 2)} kVA, ${has}. Fuel ${decimal(fuel_L_per_h, 2)} L an hour ` +
    `(${fuel_L_per_kWh} L/kWh), ${decimal(fuel_L, 1)} L for ${hours} h; bring ${decimal(fuelWithReserve_L, 1)} L.`
  );
}

function usualSet(usual_kVA: number | null): string {
  return usual_kVA === null ? 'more than the usual sets have' : `next usual set ${usual_kVA} kVA`;
}

function batteryNote(supply: SupplyReport): string {
  const { capacity_Wh, hours, cold_hours } = supply.battery!;
  if (capacity_Wh === null) return `${supply.name}: give capacity_Wh to know how long it lasts.`;
  return `${supply.name}: ${capacity_Wh} Wh last ${decimal(hours!, 1)} h, ${decimal(cold_hours!, 1)} h in the cold.`;
}

function conventions({ request, supplies, lamps, ifLost }: PowerReport): string[] {
  const { limit_percent, temperature_C } = request;
  const sentences = [
    'VA = W/PF; A = VA/V. Dimmed lamps count in full: a discharge ballast draws nearly as much, an LED may be turned up. Nameplates are good to ±5 %.',
  ];
  if (lamps.some((lamp) => lamp.powerFactorAssumed))
    sentences.push('* Power factor not given; taken as that of an uncorrected ballast.');
  if (supplies.length > 0)
    sentences.push(
      'For hours: 0.8 of the breaker unless the supply says otherwise, 0.8 of a generator’s rating, the lesser of both: common practice; local codes rule.',
      'Room: by running current and the cable’s drop; inrush not counted.',
    );
  if (supplies.some((supply) => supply.phases))
    sentences.push(
      'Three phases: volts from phase to neutral; lamps without a phase are spread to even the phases.',
    );
  if (supplies.some((supply) => supply.cable))
    sentences.push(
      `Drop: 2·l·ρ·I/a, copper at ${temperature_C} °C, no more than ${limit_percent} %${threePhaseDrop(supplies)}. ` +
        'Flexible copper and warmth add up to 40 %; reactance, and what the cable carries, are not judged.',
    );
  if (ifLost)
    sentences.push(
      'If it goes out: change of each reading, to the nearest third; nothing else moved or turned up. A supply is lost with all its lamps. As uncertain as the lamps’ shares: each output is known to ⅓ to 1 stop.',
    );
  return sentences;
}

function threePhaseDrop(supplies: readonly SupplyReport[]): string {
  return supplies.some((supply) => supply.phases && supply.cable)
    ? '; three phases to neutral, the neutral’s share counted'
    : '';
}
