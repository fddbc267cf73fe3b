import { expect } from 'vitest';
import { randomStream } from '../../core/geometry/support/random.ts';

/** Allowed difference: absolute + relative · |expected|. */
export interface Tolerance {
  readonly relative?: number;
  readonly absolute?: number;
}

/** Numbers of case after case, as a shader gets them; the core is asked with the same, rounded ones. */
export function floatCases(cases: readonly (readonly number[])[]): {
  readonly given: Float32Array;
  readonly givenCount: number;
  readonly rows: readonly (readonly number[])[];
} {
  const givenCount = cases[0]!.length;
  const given = Float32Array.from(cases.flat());
  const rows = cases.map((_, i) => Array.from(given.subarray(i * givenCount, (i + 1) * givenCount)));
  return { given, givenCount, rows };
}

/** Seeded cases: the edges first, then random ones. */
export function casesFrom(
  seed: number,
  count: number,
  make: (random: () => number) => number[],
  edges: readonly (readonly number[])[] = [],
): (readonly number[])[] {
  const random = randomStream(seed);
  return [...edges, ...Array.from({ length: count }, () => make(random))];
}

/**
 * Every result near what the core says, `perCase` results a case. Prints the worst, absolute and as part of what is
 * allowed; a failure names its case, which its seed makes again.
 */
export function expectAgreement(
  what: string,
  rows: readonly (readonly number[])[],
  got: ArrayLike<number>,
  expected: readonly number[],
  { relative = 0, absolute = 0 }: Tolerance,
): void {
  expect(got.length, `${what}: results`).toBe(expected.length);
  const perCase = expected.length / rows.length;
  let worst = { part: -1, i: 0, difference: 0 };
  let mostRelative = 0;
  for (let i = 0; i < expected.length; i++) {
    const difference = Math.abs(got[i]! - expected[i]!);
    const part = got[i] === expected[i] ? 0 : difference / (absolute + relative * Math.abs(expected[i]!));
    if (!(part <= worst.part)) worst = { part, i, difference };
    if (expected[i] !== 0) mostRelative = Math.max(mostRelative, difference / Math.abs(expected[i]!));
  }
  const { i } = worst;
  const row = rows[Math.floor(i / perCase)]!;
  const report =
    `${what}: at worst ${worst.part.toFixed(3)} of what is allowed: ${worst.difference.toExponential(2)} off ` +
    `${expected[i]!.toPrecision(7)} (got ${got[i]!.toPrecision(7)}), result ${i % perCase} of case [${row.join(', ')}]; ` +
    `largest relative error ${mostRelative.toExponential(2)}`;
  console.info(`parity ${report}`);
  expect(worst.part, report).toBeLessThanOrEqual(1);
}
