import type { SupplyReport } from '../scene/power/supply-report.ts';

/** "9.2 A". */
export function amps(current_A: number): string {
  return `${current_A.toFixed(current_A < 100 ? 1 : 0)} A`;
}

/** So many decimals at most, without trailing noughts. */
export function decimal(value: number, decimals: number): string {
  return String(Number(value.toFixed(decimals)));
}

export function percentText(percent: number, decimals: number): string {
  return `${percent.toFixed(decimals)} %`;
}

/** "Generator", or "Generator, phase 2". */
export function supplyNames(
  supplies: readonly SupplyReport[],
): (id: string, phase?: number | null) => string {
  const names = new Map(supplies.map((supply) => [supply.id, supply.name]));
  return (id, phase) => `${names.get(id) ?? id}${phase ? `, phase ${phase}` : ''}`;
}

/** "a", "a and b", "a, b and c"; with semicolons where a comma would be taken for one within a name. */
export function listed(words: readonly string[]): string {
  if (words.length < 2) return words[0] ?? '';
  if (words.some((word) => word.includes(','))) return words.join('; ');
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}
