import { CONTINUOUS_FRACTION } from '../core/electrical/load.ts';
import { thirdHarmonicNeutral_A } from '../core/electrical/neutral.ts';
import { UNCORRECTED_POWER_FACTOR } from '../scene/power/lamp-load.ts';
import type { PoweredLamp, PowerReport } from '../scene/power/power-scene.ts';
import type { SupplyReport } from '../scene/power/supply-report.ts';
import { amps, decimal, listed, percentText, supplyNames } from './power-words.ts';

/** Nearer to a limit than nameplates are known. */
const CLOSE = 0.95;

/** Above this between a phase and neutral, volts were most likely given between two phases. */
const HIGH_PHASE_VOLTS = 290;
const LINE_208 = 208;

/** Below this a head is taken to have no correction of its current's shape. */
const CORRECTED = 0.9;

/** Where no supply says what the mains are. */
const USUAL_VOLTS: readonly number[] = [120, 230];

/** Third harmonic of such a head's current: common practice, no source. */
const THIRD_HARMONIC = 0.33;

/** What has to be done or known before the load goes on, the worst first. */
export function powerWarnings(report: PowerReport): string[] {
  const { supplies } = report;
  return [
    ...supplies.filter((supply) => supply.over).map(overSentence),
    ...supplies.filter((supply) => supply.dropOver).map((s) => dropSentence(s, report.request.limit_percent)),
    ...proposalSentences(report),
    ...unpluggedSentences(report),
    ...unknownSentences(report),
    ...assumedSentences(report),
    ...supplies.flatMap((supply) => supplyWarnings(supply, report)),
    ...strikeSentences(report),
  ];
}

function overSentence(supply: SupplyReport): string {
  const { name, current_A, limit_A, breaker_A, volts, trips, phases } = supply;
  const where = phases
    ? `${name}, phase ${phases.find((phase) => phase.current_A === current_A)!.phase}`
    : name;
  const tooMuch_VA = (current_A - limit_A!) * volts;
  const against = trips
    ? `over the ${decimal(breaker_A!, 1)} A breaker itself: it trips`
    : supply.limitSetBy === 'breaker'
      ? `under the ${decimal(breaker_A!, 1)} A breaker but over the ${amps(limit_A!)} that it carries for hours`
      : `over the ${amps(limit_A!)} that its rating gives for hours`;
  return `${where}: ${amps(current_A)} is ${against}. Take ${Math.ceil(tooMuch_VA - 1e-6)} VA off, or bring a larger feed.`;
}

function dropSentence(supply: SupplyReport, limit_percent: number): string {
  const { name, volts, drop_V, drop_percent, cable } = supply;
  const { length_m, area_mm2, cure } = cable!;
  const lost = `${decimal(length_m, 1)} m of ${area_mm2} mm² lose ${decimal(drop_V!, 1)} V, ${percentText(drop_percent!, 1)}`;
  const left = `lamps get ${decimal(volts - drop_V!, 0)} of ${volts} V`;
  const mend = cure
    ? `${cure.area_mm2} mm² would lose ${percentText(cure.drop_percent, 1)}`
    : 'no usual cable cures that: split the load or bring the supply nearer';
  return `${name}: ${lost}, more than ${limit_percent} %; ${left}. ${capital(mend)}.`;
}

function proposalSentences({ proposal, supplies, lamps }: PowerReport): string[] {
  if (!proposal) return [];
  const lampName = (id: string) => lamps.find((lamp) => lamp.id === id)!.name;
  const supplyName = supplyNames(supplies);
  const moves = proposal.moves.map(
    ({ lamp, from, to, phase }) =>
      `${lampName(lamp)} ${from === null ? 'on' : 'over to'} ${supplyName(to, phase)}`,
  );
  const then = proposal.supplies
    .filter((supply) => supply.current_A > 0 && supply.limit_A !== null)
    .map((supply) => `${supply.name} ${amps(supply.current_A)} of ${amps(supply.limit_A!)}`);
  const cables = proposal.supplies.filter((supply) => supply.dropOver).map((supply) => supply.name);
  const dropNote =
    cables.length > 0 ? ` Its voltage drop would be over on ${listed(cables)}: thicker cable.` : '';
  if (proposal.fits) {
    const how = moves.length > 0 ? moves.join('; ') : 'the same plugs, phases as listed';
    return [`Plugged like this it fits: ${how}. Then ${then.join(', ')}.${dropNote}`];
  }
  const left = listed(proposal.left.map(lampName));
  const certain = proposal.proven
    ? 'No plugging carries all lamps'
    : 'No plugging was found that carries all lamps';
  const best = moves.length > 0 ? `Best is ${moves.join('; ')}, and without` : 'Without power stay';
  return [`${certain}. ${best} ${left}: another supply for them, or off.${dropNote}`];
}

function unpluggedSentences({ unplugged, lamps, supplies }: PowerReport): string[] {
  if (unplugged.length === 0) return [];
  const some = lamps.filter((lamp) => unplugged.includes(lamp.id));
  const load_VA = some.reduce((sum, lamp) => sum + (lamp.load_VA ?? 0), 0);
  const mains = supplies.filter((supply) => supply.kind !== 'battery').map((supply) => supply.volts);
  const volts = mains.length > 0 ? new Set(mains) : USUAL_VOLTS;
  const needs = [...volts].map((V) => {
    const current_A = load_VA / V;
    return `${amps(current_A)} at ${V} V (breaker of ${Math.ceil(current_A / CONTINUOUS_FRACTION - 1e-9)} A or more)`;
  });
  const names = listed(some.map((lamp) => lamp.name));
  return [`No supply for ${names}: ${Math.round(load_VA)} VA, ${needs.join(', ')}.`];
}

function unknownSentences({ unknown, lamps }: PowerReport): string[] {
  if (unknown.length === 0) return [];
  const names = listed(unknown.map((id) => lamps.find((lamp) => lamp.id === id)!.name));
  return [
    `What ${names} ${unknown.length === 1 ? 'draws' : 'draw'} is not known, so every sum is at least what it says: give the head an "electrical" part with input_W.`,
  ];
}

function assumedSentences({ lamps }: PowerReport): string[] {
  const heads = [...new Set(lamps.filter((lamp) => lamp.powerFactorAssumed).map((lamp) => lamp.headName))];
  if (heads.length === 0) return [];
  return [
    `Power factor not given for ${listed(heads)}: ${UNCORRECTED_POWER_FACTOR} taken. It is on the nameplate.`,
  ];
}

function supplyWarnings(supply: SupplyReport, { request, lamps }: PowerReport): string[] {
  const { name, current_A, limit_A, cable, battery, inrush } = supply;
  const warnings: string[] = [];
  if (limit_A === null && supply.kind !== 'battery' && supply.lamps.length > 0)
    warnings.push(
      `${name}: neither breaker_A nor rating_kVA given, so whether it carries this is not known.`,
    );
  if (limit_A !== null && !supply.over && current_A > CLOSE * limit_A)
    warnings.push(
      `${name}: ${amps(current_A)} of ${amps(limit_A)} is nearer than nameplates are known (±5 %).`,
    );
  if (limit_A !== null && !supply.over && supply.allOn_A > limit_A + 1e-9) {
    const off = listed(supply.lampsOff.map((id) => lamps.find((lamp) => lamp.id === id)!.name));
    warnings.push(
      `${name}: with ${off} switched on as well it would be ${amps(supply.allOn_A)}, over ${amps(limit_A)}.`,
    );
  }
  if (cable && !cable.over && cable.warm_percent > request.limit_percent)
    warnings.push(
      `${name}: the drop of ${percentText(cable.drop_percent, 1)} holds for cold, solid copper; in flexible cable run warm it may reach ${percentText(cable.warm_percent, 1)}.`,
    );
  if (!cable && supply.lamps.length > 0 && supply.kind !== 'battery')
    warnings.push(`${name}: no cable given, so its voltage drop is not known.`);
  if (battery?.hours != null && battery.cold_hours! < request.hours)
    warnings.push(
      `${name}: lasts ${decimal(battery.cold_hours!, 1)} h in the cold, not ${request.hours} h; have another charged.`,
    );
  if (supply.phases && (supply.volts > HIGH_PHASE_VOLTS || supply.volts === LINE_208))
    warnings.push(
      `${name}: ${supply.volts} V reads like volts between two phases; what counts here is from phase to neutral, ${Math.round(supply.volts / Math.sqrt(3))} V.`,
    );
  if (supply.phases) warnings.push(...neutralWarnings(supply, lamps));
  if (inrush && inrush.quickTrip_A !== null && inrush.oneByOne_A > inrush.quickTrip_A)
    warnings.push(
      `${name}: inrush of ${amps(inrush.oneByOne_A)} may open a quick breaker (type B from ${amps(inrush.quickTrip_A)}) even when lamps are switched on one by one; the heaviest first, or a slower breaker by a qualified person.`,
    );
  else if (inrush && inrush.quickTrip_A !== null && inrush.together_A > inrush.quickTrip_A)
    warnings.push(
      `${name}: all switched on at one stroke is ${amps(inrush.together_A)}, which may open a quick breaker (type B from ${amps(inrush.quickTrip_A)}). Switch on one by one.`,
    );
  return warnings;
}

function neutralWarnings(supply: SupplyReport, lamps: readonly PoweredLamp[]): string[] {
  const raw = supply.phases!.map((phase) =>
    lamps
      .filter((lamp) => phase.lamps.includes(lamp.id))
      .filter((lamp) => lamp.kind !== 'tungsten' && (lamp.powerFactor ?? 1) < CORRECTED)
      .reduce((sum, lamp) => sum + (lamp.current_A ?? 0), 0),
  );
  const mean_A = raw.reduce((a, b) => a + b, 0) / 3;
  if (mean_A === 0) return [];
  const neutral_A = thirdHarmonicNeutral_A(mean_A, THIRD_HARMONIC);
  return [
    `${supply.name}: heads with a power factor under ${CORRECTED} may put about ${amps(neutral_A)} of third harmonics into the neutral (a third of their current assumed), beside ${amps(supply.neutral_A!)} of unequal phases.`,
  ];
}

function strikeSentences({ lamps, supplies }: PowerReport): string[] {
  const on = lamps.filter((lamp) => lamp.on && lamp.kind === 'discharge');
  const sentences: string[] = [];
  for (const minutes of new Set(on.map((lamp) => lamp.restrike_min))) {
    const names = listed(on.filter((lamp) => lamp.restrike_min === minutes).map((lamp) => lamp.name));
    if (minutes === null)
      sentences.push(`${names}: no hot restrike given; after a trip reckon with minutes of dark.`);
    else if (minutes > 0)
      sentences.push(`${names}: after a trip ${decimal(minutes, 0)} min of cooling before striking again.`);
  }
  if (on.length > 1)
    sentences.push('Strike discharge lamps one at a time, and let each run up before the next.');
  const unknown = new Set(supplies.flatMap((supply) => supply.inrush?.unknown ?? []));
  const heads = [...new Set(lamps.filter((lamp) => unknown.has(lamp.head)).map((lamp) => lamp.headName))];
  if (heads.length > 0)
    sentences.push(
      `Inrush not given for ${listed(heads)}, and not judged: see the makers’ sheets; switch on one by one.`,
    );
  return sentences;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
