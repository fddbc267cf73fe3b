import { entryNamed, LIBRARY } from '../library/library.ts';
import { drawOf, lampLoads } from '../power/lamp-load.ts';
import { limitOf } from '../power/supply-limit.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Supply } from '../schema/supply.ts';

/**
 * The supply for one more of a head: of those that carry it for hours beside what they have, the one that is left with most;
 * where none does, the one that comes nearest, so that the power sheet says what is over. Undefined without supplies. Mains
 * and generators come before batteries. Planning only: local codes and a qualified person rule.
 */
export function supplyWithRoom(document: SceneDocument, headName: string): string | undefined {
  const head = entryNamed(document.heads, LIBRARY.heads, headName);
  const left = (document.supplies ?? []).map((supply) => {
    const more_A = ((head && drawOf(head, supply.kind === 'battery')?.load_VA) ?? 0) / supply.volts;
    return {
      supply,
      battery: supply.kind === 'battery' ? 1 : 0,
      left_A: roomLeft_A(document, supply) - more_A,
    };
  });
  const fits = (one: (typeof left)[number]) => one.left_A >= 0;
  return left.sort(
    (a, b) => Number(fits(b)) - Number(fits(a)) || a.battery - b.battery || b.left_A - a.left_A,
  )[0]?.supply.id;
}

/** What may still be drawn for hours, all lamps on it counted, alight or not; ∞ where its limit is not known. */
export function roomLeft_A(document: SceneDocument, supply: Supply): number {
  const limit = limitOf(supply);
  if (!limit) return Infinity;
  const used_VA = lampLoads(document)
    .filter((load) => load.supply === supply.id)
    .reduce((sum, { draw }) => sum + (draw?.load_VA ?? 0), 0);
  return (supply.phases ?? 1) * limit.limit_A - used_VA / supply.volts;
}
