import { headsThatFit } from '../../core/electrical/load.ts';
import type { Supply } from '../schema/supply.ts';
import { type DropRequest, dropIsKept } from './cable-drop.ts';

/** How many more of a head a supply takes. */
export interface Room {
  readonly head: string;
  /** By running current alone, at most MOST_COUNTED; null where the supply's limit is not known. */
  readonly byCurrent: number | null;
  /** The same with the cable's voltage drop kept too. */
  readonly more: number | null;
}

/** Nobody counts further. */
export const MOST_COUNTED = 99;

/**
 * More of one head beside what runs already. On three phases each goes to the emptiest. Inrush is not counted.
 */
export function roomFor(
  head: string,
  each_VA: number,
  supply: Supply,
  currents_A: readonly number[],
  limit_A: number | null,
  request: DropRequest,
): Room {
  if (limit_A === null) return { head, byCurrent: null, more: null };
  const each_A = each_VA / supply.volts;
  const fitting = (used_A: number) => (limit_A - used_A > 0 ? headsThatFit(each_A, limit_A - used_A) : 0);
  const byCurrent = Math.min(
    MOST_COUNTED,
    currents_A.reduce((sum, used_A) => sum + fitting(used_A), 0),
  );
  const after = [...currents_A];
  let more = 0;
  while (more < byCurrent) {
    after[after.indexOf(Math.min(...after))]! += each_A;
    if (!dropIsKept(supply, after, request)) break;
    more++;
  }
  return { head, byCurrent, more };
}
