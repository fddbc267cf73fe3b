import { describe, expect, it } from 'vitest';
import { readPhotometricFile } from '../../../src/core/photometry/photometric-file.ts';
import { fixtureText } from './fixture.ts';

describe('format', () => {
  const ies = fixtureText('synthetic/lambert-C-h0.ies');
  const ldt = fixtureText('synthetic/isym1-rotational.ldt');

  it('is told by the content, whatever the name', () => {
    for (const name of ['a.ies', 'a.LDT', 'a.txt', 'a']) {
      expect(readPhotometricFile(name, ies).format).toBe('LM-63');
      expect(readPhotometricFile(name, ldt).format).toBe('EULUMDAT');
    }
    expect(readPhotometricFile('a', fixtureText('synthetic/lm63-1986-labels-only.ies')).edition).toBe(1986);
  });

  it('falls back on the extension, so that the message fits the file', () => {
    expect(() => readPhotometricFile('a.ies', 'nothing')).toThrow(/TILT=/);
    expect(() => readPhotometricFile('a.LDT', 'nothing\nat all')).toThrow(/type indicator/);
    expect(() => readPhotometricFile('a.txt', 'nothing')).toThrow(/UNKNOWN_FORMAT/);
  });

  it('is not asked of a file that is empty or far too large', () => {
    expect(() => readPhotometricFile('a', ' \r\n\t')).toThrow(/EMPTY/);
    expect(() => readPhotometricFile('a.ies', ' '.repeat(20_000_001))).toThrow(/TOO_LARGE/);
  });
});
