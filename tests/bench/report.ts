import { performance } from 'node:perf_hooks';
import { textTable } from '../../src/cli/text-table.ts';

export type Row = Readonly<Record<string, string>>;

export function printTable(title: string, rows: readonly Row[]): void {
  const heads = Object.keys(rows[0] ?? {});
  console.log(
    `${title}\n${textTable([heads, ...rows.map((row) => heads.map((head) => row[head] ?? ''))])}\n`,
  );
}

/** Milliseconds of one call: median and worst of `repeats`, after one call that does not count. */
export function timed(repeats: number, call: () => void): { median_ms: number; worst_ms: number } {
  call();
  const times_ms = Array.from({ length: repeats }, () => {
    const start = performance.now();
    call();
    return performance.now() - start;
  }).sort((a, b) => a - b);
  return { median_ms: times_ms[times_ms.length >> 1]!, worst_ms: times_ms.at(-1)! };
}

export function ms(value_ms: number): string {
  return `${value_ms < 10 ? value_ms.toFixed(2) : value_ms.toFixed(0)} ms`;
}
