import type { Reading } from '../schema/mark.ts';

/** Whether two lists hold the same readings, whatever they have come to remember of their lamps. */
export function sameMetered(one: readonly Reading[] = [], other: readonly Reading[] = []): boolean {
  return one === other || JSON.stringify(one.map(metered)) === JSON.stringify(other.map(metered));
}

function metered({ taken: _, ...reading }: Reading): Omit<Reading, 'taken'> {
  return reading;
}
