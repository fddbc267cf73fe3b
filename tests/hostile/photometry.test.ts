import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flux_lm, zonalFlux_lm } from '../../src/core/photometry/flux.ts';
import { readPhotometricFile } from '../../src/core/photometry/photometric-file.ts';
import { PhotometryError } from '../../src/core/photometry/photometry-error.ts';
import { fixtureText } from '../core/photometry/fixture.ts';

const SEED = 20_270_304;

/** Small files of both formats with every part that a reader has. */
const SOURCES = [
  'synthetic/tilt-include-C.ies',
  'synthetic/multilamp-ballast-mult-C.ies',
  'synthetic/lm63-1991.ies',
  'synthetic/separators-commas-tabs-one-per-line.ies',
  'synthetic/quadrant-C-h0-90.ies',
  'synthetic/bilateral-C-h90-270.ies',
  'synthetic/asym-C-h0-345.ies',
  'synthetic/field-typeB-h0-90.ies',
  'synthetic/field-typeA-full.ies',
  'synthetic/two-lamp-sets.ldt',
  'synthetic/isym3-c90c270.ldt',
  'synthetic/isym4-both.ldt',
  'synthetic/comma-decimals.ldt',
].map((path) => ({ name: path.replace(/^.*\//, ''), text: fixtureText(path) }));

const STRANGE_TOKENS = [
  '',
  '0',
  '-0',
  '1',
  '-1',
  '2',
  '3',
  '0.5',
  '90',
  '180',
  '270',
  '360',
  '1e308',
  '1e-308',
  '-1e308',
  '1e400',
  '5e-324',
  '9007199254740993',
  '2147483648',
  '4294967296',
  '1999999',
  'NaN',
  '-Infinity',
  '0x1F',
  '1,5',
  '1.2.3',
  '--1',
  '+',
  'e5',
  '1e',
  '٣',
  'TILT=NONE',
  'TILT=INCLUDE',
  '[MORE]',
  '\u0000',
  '\ufeff',
  '\u2028',
  '1'.repeat(400),
  'x'.repeat(9000),
];

type Mutation = (text: string) => string;

/** Splits into tokens and the blanks between them, so that a change leaves the rest of the file as it is. */
function changeToken(text: string, at: number, change: (token: string) => string): string {
  const parts = text.split(/([\s,]+)/);
  const index = 2 * Math.floor((at * parts.length) / 2);
  return parts.map((part, i) => (i === index ? change(part) : part)).join('');
}

const share = fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true });
const token = fc.oneof(
  fc.constantFrom(...STRANGE_TOKENS),
  fc.double({ noNaN: false }).map(String),
  fc.string(),
);

const mutation: fc.Arbitrary<Mutation> = fc.oneof(
  share.map((at) => (text: string) => changeToken(text, at, () => '')),
  share.map((at) => (text: string) => changeToken(text, at, (old) => `${old} ${old}`)),
  fc.tuple(share, token).map(
    ([at, by]) =>
      (text: string) =>
        changeToken(text, at, () => by),
  ),
  // The photometric line and the counts are where a reader is most easily led astray.
  fc.tuple(fc.nat(40), token).map(([offset, by]) => (text: string) => {
    const from = Math.max(0, text.search(/TILT=|\n[0-4]\r?\n/));
    return (
      text.slice(0, from) +
      changeToken(text.slice(from), offset / (text.slice(from).split(/[\s,]+/).length + 40), () => by)
    );
  }),
  fc.tuple(share, fc.nat(255)).map(([at, byte]) => (text: string) => {
    const i = Math.floor(at * text.length);
    return text.slice(0, i) + String.fromCharCode(byte) + text.slice(i + 1);
  }),
  fc.tuple(share, share).map(([p, q]) => (text: string) => {
    const [from, to] = [Math.min(p, q), Math.max(p, q)].map((s) => Math.floor(s * text.length)) as [
      number,
      number,
    ];
    return text.slice(0, from) + text.slice(to);
  }),
  share.map((at) => (text: string) => text.slice(0, Math.floor(at * text.length))),
  fc.tuple(share, share).map(([at, from]) => (text: string) => {
    const lines = text.split('\n');
    const line = lines[Math.floor(from * lines.length)]!;
    lines.splice(Math.floor(at * lines.length), 0, line);
    return lines.join('\n');
  }),
);

/** A usable table or a PhotometryError; anything else fails the property. Returns which. */
function outcome(name: string, text: string): 'read' | 'refused' {
  try {
    const { distribution, lampCount, lampLumens_lm, inputPower_W, opening } = readPhotometricFile(name, text);
    const { vertical_deg, horizontal_deg, candela } = distribution;
    if (candela.length !== vertical_deg.length * horizontal_deg.length)
      throw new Error('table of the wrong size');
    if (!candela.every((value) => value >= 0 && Number.isFinite(value)))
      throw new Error('candela not usable');
    for (const angles of [vertical_deg, horizontal_deg]) {
      if (!angles.every((angle, i) => Number.isFinite(angle) && (i === 0 || angle > angles[i - 1]!))) {
        throw new Error('angles not increasing');
      }
    }
    for (const flux of [flux_lm(distribution), zonalFlux_lm(distribution)]) {
      if (!(flux > 0 && Number.isFinite(flux))) throw new Error(`flux ${flux}`);
    }
    const numbers = [
      lampCount,
      lampLumens_lm ?? 1,
      inputPower_W ?? 1,
      opening.width_m,
      opening.length_m,
      opening.height_m,
    ];
    if (!numbers.every((value) => value >= 0 && Number.isFinite(value)))
      throw new Error(`numbers ${numbers}`);
    return 'read';
  } catch (error) {
    if (!(error instanceof PhotometryError)) throw error;
    if (/[\r\n\u2028]/.test(error.message) || error.message.length > 600)
      throw new Error('message not one short line');
    return 'refused';
  }
}

describe('damaged photometric files', () => {
  it('become a usable table or a PhotometryError, never anything else', () => {
    const counts = { read: 0, refused: 0 };
    fc.assert(
      fc.property(
        fc.constantFrom(...SOURCES),
        fc.array(mutation, { minLength: 1, maxLength: 3 }),
        (source, mutations) => {
          counts[
            outcome(
              source.name,
              mutations.reduce((text, mutate) => mutate(text), source.text),
            )
          ]++;
        },
      ),
      { seed: SEED, numRuns: 4000 },
    );
    // Both ways out must have been taken often, or the damage tested nothing.
    expect(counts.read).toBeGreaterThan(400);
    expect(counts.refused).toBeGreaterThan(1200);
  });

  it('of no format at all are refused', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('a.ies', 'a.ldt', 'a'),
        fc.string({ maxLength: 2000, unit: 'binary' }),
        (name, text) => {
          expect(outcome(name, text)).toBe('refused');
        },
      ),
      { seed: SEED, numRuns: 500 },
    );
  });

  it('made to catch a slow reader are refused in one pass', () => {
    // A reader of more than linear cost would run into the time limit of the test on any of these.
    const many = 500_000;
    for (const text of [
      `IESNA:LM-63-2002\n${`${'1'.repeat(8000)}x\n`.repeat(100)}`,
      `IESNA:LM-63-2002\n${`${' '.repeat(8000)}\n`.repeat(100)}x`,
      `IESNA:LM-63-2002\n${'['.repeat(8000)}\n`.repeat(100),
      `TILT=NONE\n${','.repeat(many)}`,
      `TILT=NONE\n${'9'.repeat(many)}`,
      `TILT=NONE\n${'1 '.repeat(many)}`,
      `${'\n'.repeat(many)}x`,
    ]) {
      expect(outcome('slow.ies', text)).toBe('refused');
    }
  });
});
