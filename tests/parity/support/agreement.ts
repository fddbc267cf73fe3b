import { expect } from 'vitest';
import { randomStream } from '../../core/geometry/support/random.ts';

/** Numbers of case after case, as a shader gets them; `rows` are the same, rounded, for the core to be asked with. */
export interface FloatCases {
  readonly given: Float32Array;
  readonly givenCount: number;
  readonly rows: readonly (readonly number[])[];
}

export function floatCases(cases: readonly (readonly number[])[]): FloatCases {
  const givenCount = cases[0]!.length;
  const given = Float32Array.from(cases.flat());
  const rows = cases.map((_, i) => Array.from(given.subarray(i * givenCount, (i + 1) * givenCount)));
  return { given, givenCount, rows };
}

/** Seeded cases: the edges first, then random ones. */
export function casesFrom(
  seed: number,
  count: number,
  make: (draw: () => number) => readonly number[],
  edges: readonly (readonly number[])[] = [],
): (readonly number[])[] {
  const draw = randomStream(seed);
  return [...edges, ...Array.from({ length: count }, () => make(draw))];
}

/** Three results a name, for vectors. */
export function triples(...names: readonly string[]): string[] {
  return names.flatMap((name) => ['x', 'y', 'z'].map((axis) => `${name}.${axis}`));
}

/** Allowed difference: absolute + relative · |expected|, or whatever a case allows. */
export type Tolerance =
  | { readonly relative?: number; readonly absolute?: number }
  | ((expected: number, i: number) => number);

/**
 * Every result near what the core says: for each case one result a name. Prints the worst of each name, its error and what
 * part that is of the allowed; a failure names its case, whose numbers make it again.
 */
export function expectAgreement(
  names: readonly string[],
  rows: readonly (readonly number[])[],
  got: ArrayLike<number>,
  expected: readonly number[],
  tolerance: Tolerance,
): void {
  expect(expected.length, names.join(', ')).toBe(rows.length * names.length);
  expect(got.length, names.join(', ')).toBe(expected.length);
  const allowed =
    typeof tolerance === 'function'
      ? tolerance
      : (value: number) => (tolerance.absolute ?? 0) + (tolerance.relative ?? 0) * Math.abs(value);
  for (const [k, name] of names.entries()) {
    let worst = { part: 0, i: 0, error: 0 };
    for (const i of rows.keys()) {
      const at = i * names.length + k;
      const error = got[at] === expected[at] ? 0 : Math.abs(got[at]! - expected[at]!);
      const part = error / allowed(expected[at]!, i);
      // Written so that NaN is the worst of all.
      if (error !== 0 && !(part <= worst.part)) worst = { part, i, error };
    }
    const at = worst.i * names.length + k;
    const report =
      `${name}: ${rows.length} cases, at worst ${worst.error.toExponential(1)} off ${expected[at]!.toPrecision(6)}, ` +
      `${worst.part.toFixed(2)} of what is allowed, at [${rows[worst.i]!.map((x) => Number(x.toPrecision(6))).join(', ')}]`;
    console.info(`parity ${report}`);
    expect(
      worst.part,
      `${report}; got ${got[at]}, exactly [${rows[worst.i]!.join(', ')}]`,
    ).toBeLessThanOrEqual(1);
  }
}
