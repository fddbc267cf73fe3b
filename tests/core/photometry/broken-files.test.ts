import { describe, expect, it } from 'vitest';
import { readPhotometricFile } from '../../../src/core/photometry/photometric-file.ts';
import { PhotometryError } from '../../../src/core/photometry/photometry-error.ts';
import { fixtureText } from './fixture.ts';

interface Entry {
  readonly file: string;
  readonly code: string;
}

const MANIFEST = JSON.parse(fixtureText('broken/manifest.json')) as Entry[];

/** The line at fault, counted by eye in each file, and a word of the mend that a reader needs. */
const AT_FAULT: Record<string, readonly [number, RegExp]> = {
  'b01-empty.ies': [1, /fetch the file again/i],
  'b02-no-tilt-line.ies': [4, /put the line TILT=NONE before the numbers/i],
  'b03-truncated-candela.ies': [
    10,
    /13 values, expected 14.*add what is missing, or correct the counts on line 5/i,
  ],
  'b04-truncated-mid-angles.ies': [7, /correct the counts on line 5/],
  'b05-word-in-number.ies': [9, /"seven00".*put the measured figure there/i],
  'b06-nan-candela.ies': [9, /"NaN".*put the measured figure there/i],
  'b07-infinity-candela.ies': [9, /"Infinity".*put the measured figure there/i],
  'b09-negative-candela.ies': [9, /-700.*set dark directions to 0/i],
  'b10-vertical-not-increasing.ies': [7, /45 after 90.*put the angles in order/i],
  'b11-vertical-duplicate.ies': [7, /45 after 45.*put the angles in order, each once/i],
  'b13-vertical-range-10-80.ies': [7, /10 to 80.*add the missing angles/i],
  'b14-photometric-type-4.ies': [5, /found 4.*correct the type/i],
  'b15-units-3.ies': [5, /found 3.*correct the units/i],
  'b17-negative-horizontal-count.ies': [5, /-1 as the number of horizontal angles.*correct the count/i],
  'b18-fractional-count.ies': [5, /3\.5 as the number of vertical angles.*correct the count/i],
  'b19-huge-count-dos.ies': [5, /2000000000.*correct the counts/i],
  'b20-tilt-include-short.ies': [8, /13 tilt angles.*correct the number of tilt pairs, or complete/i],
  'b21-tilt-path-traversal.ies': [4, /never opened: copy the tilt table in/],
  'b23-negative-multiplier.ies': [5, /-1 as the candela multiplier.*write 1/i],
  'b25-html-instead.ies': [2, /this is not LM-63.*fetch the file again/i],
  'b27-long-line-dos.ies': [4, /shorten the line/i],
  'b28-typeB-vertical-0-180.ies': [7, /0 to 180.*correct the angles or the photometric type/i],
  'b30-missing-ballast-line.ies': [
    8,
    /7 values, expected 10 values \(3 of the ballast line.*add what is missing/i,
  ],
  'b31-prototype-pollution-keyword.ies': [9, /9 values, expected 10.*correct the counts on line 5/i],
  'l01-empty.ldt': [1, /fetch the file again/i],
  'l02-isym-7.ldt': [3, /found 7.*correct it/i],
  'l03-ng-too-large.ldt': [51, /add what is missing, or correct the counts on line 6/i],
  'l05-zero-lamp-sets.ldt': [26, /found 0.*correct the count/i],
  'l08-negative-intensity.ldt': [48, /-50.*set dark directions to 0/i],
  'l09-gamma-decreasing.ldt': [46, /30 after 60.*put the angles in order/i],
  'l11-zero-flux.ldt': [29, /0 lm.*enter the rated flux/i],
  'l12-text-in-number.ldt': [5, /"fifteen".*put the measured figure there/i],
  'l13-truncated.ldt': [40, /add what is missing, or correct the counts on line 6/i],
};

describe('broken files are refused', () => {
  it('all of them', () => {
    expect(MANIFEST.map((entry) => entry.file).sort()).toEqual(Object.keys(AT_FAULT).sort());
  });

  it.each(MANIFEST)('$file: $code', ({ file, code }) => {
    const [line, mend] = AT_FAULT[file]!;
    let error: unknown;
    try {
      readPhotometricFile(file, fixtureText(`broken/${file}`));
    } catch (caught) {
      error = caught;
    }
    expect(error).toBeInstanceOf(PhotometryError);
    const { message, ...fields } = error as PhotometryError;
    expect({ code: fields.code, file: fields.file, line: fields.line }).toEqual({ code, file, line });
    expect(message).toMatch(mend);
    expect(message.startsWith(`${file}, line ${line}: found `)).toBe(true);
    expect(message).not.toMatch(/[\r\n]/);
    expect(message.length).toBeLessThan(400);
  });
});
