import type { Command } from '../commands/command.ts';
import { entryNamed, LIBRARY } from '../library/library.ts';
import { drawOf } from '../power/lamp-load.ts';
import type { Supply } from '../schema/supply.ts';
import { freshId, freshName, takenIds } from './fresh-names.ts';
import type { Made, Surroundings } from './recipe.ts';
import { roomLeft_A } from './supply-with-room.ts';

export const SUPPLY_KINDS = ['socket', 'generator', 'battery'] as const;
export type SupplyKind = (typeof SUPPLY_KINDS)[number];

/**
 * A supply of the size that is usually met: common practice, no source. Lamps that are plugged in nowhere are plugged into
 * it, in their order, as far as it carries them for hours. Planning only: local codes and a qualified person rule.
 */
export function makeSupply(surroundings: Surroundings, kind: SupplyKind): Made {
  const { document } = surroundings;
  const volts = document.site?.mains?.volts ?? 230;
  const name = freshName(document, NAMES[kind]);
  const supply: Supply = { id: freshId(takenIds(document), name), name, ...usual(kind, volts) };
  let left_A = roomLeft_A({ ...document, supplies: [supply] }, supply);
  const plugged: Command[] = [];
  for (const lamp of document.lamps ?? []) {
    const head = entryNamed(document.heads, LIBRARY.heads, lamp.head);
    const each_A = ((head && drawOf(head, kind === 'battery')?.load_VA) ?? 0) / supply.volts;
    if (lamp.supply !== undefined || each_A > left_A) continue;
    left_A -= each_A;
    plugged.push({ do: 'change', id: lamp.id, patch: { supply: supply.id } });
  }
  return {
    commands: [{ do: 'add', to: 'supplies', thing: supply }, ...plugged],
    chosen: [supply.id],
    step: `Add ${name}`,
  };
}

const NAMES: Readonly<Record<SupplyKind, string>> = {
  socket: 'Socket',
  generator: 'Generator',
  battery: 'Battery',
};

function usual(kind: SupplyKind, volts: number): Omit<Supply, 'id' | 'name'> {
  const breaker_A = volts < 150 ? 20 : 16;
  switch (kind) {
    case 'socket':
      return { kind: 'mains', volts, breaker_A, continuous: 0.8, cable: { length_m: 25, area_mm2: 2.5 } };
    case 'generator':
      return {
        kind: 'generator',
        volts,
        breaker_A,
        continuous: 0.8,
        rating_kVA: 5,
        cable: { length_m: 50, area_mm2: 2.5 },
      };
    case 'battery':
      return { kind: 'battery', volts: 14.4, capacity_Wh: 150 };
  }
}
