import { describe, expect, it } from 'vitest';
import { readLm63 } from '../../../src/core/photometry/lm63.ts';
import { PhotometryError } from '../../../src/core/photometry/photometry-error.ts';
import { fixtureText, range, synthetic, towardA, towardB, towardC } from './fixture.ts';

interface Parts {
  readonly head?: string;
  readonly photometric?: string;
  readonly ballast?: string;
  readonly vertical?: string;
  readonly horizontal?: string;
  readonly candela?: string;
}

function text(parts: Parts = {}): string {
  return [
    parts.head ?? 'IESNA:LM-63-2002\n[TEST] none\nTILT=NONE',
    parts.photometric ?? '1 -1 1 3 1 1 2 0 0 0',
    parts.ballast ?? '1 1 100',
    parts.vertical ?? '0 45 90',
    parts.horizontal ?? '0',
    parts.candela ?? '1000 700 0',
    '',
  ].join('\n');
}

function read(parts: Parts = {}) {
  return readLm63('test.ies', text(parts));
}

function refusal(parts: Parts): PhotometryError {
  try {
    read(parts);
  } catch (error) {
    if (error instanceof PhotometryError) return error;
    throw error;
  }
  throw new Error('was accepted');
}

describe('editions', () => {
  const firstLine = (line: string) => read({ head: `${line}\nTILT=NONE`, ballast: '0.5 0.8 100' });

  it('are known by the first line; without one a file is of 1986', () => {
    expect(firstLine('A free label').edition).toBe(1986);
    expect(firstLine('IESNA91').edition).toBe(1991);
    expect(firstLine('IESNA:LM-63-1995').edition).toBe(1995);
    expect(firstLine('iesna:lm-63-2002').edition).toBe(2002);
    expect(firstLine('IES:LM-63-2019').edition).toBe(2019);
    expect(read({ head: 'TILT=NONE' }).edition).toBe(1986);
  });

  it('multiply by the second ballast number until 1991 only', () => {
    // published: Ashdown, Parsing the IESNA LM-63 File, § 5, and LM-63-2019 (F6, F7).
    const nadir = (line: string): number => towardC(firstLine(line).distribution, 0, 0);
    expect(nadir('A free label')).toBeCloseTo(400, 9);
    expect(nadir('IESNA91')).toBeCloseTo(400, 9);
    for (const line of ['IESNA:LM-63-1995', 'IESNA:LM-63-2002', 'IES:LM-63-2019']) {
      expect(nadir(line)).toBeCloseTo(500, 9);
    }
  });

  it('warn of a second ballast number that the edition does not know', () => {
    expect(firstLine('IESNA:LM-63-2002').warnings.join()).toMatch(/line 4: 0.8 after the ballast factor/);
    expect(firstLine('IES:LM-63-2019').warnings).toEqual([]);
  });

  it('from the future are read as the newest known, with a warning', () => {
    const file = firstLine('IES:LM-63-2031');
    expect(file.edition).toBe(2019);
    expect(file.warnings.join()).toMatch(/LM-63-2031/);
  });
});

describe('keywords', () => {
  it('keep their values, continued by [MORE] and repeated ones joined', () => {
    const { keywords } = read({
      head: 'IESNA:LM-63-2002\n[manufac] none\n[OTHER] first\n[MORE] second\n[OTHER] third\n\nTILT=NONE',
    });
    expect(keywords.get('MANUFAC')).toBe('none');
    expect(keywords.get('OTHER')).toBe('first\nsecond\nthird');
  });

  it('never reach a prototype', () => {
    const { keywords } = read({ head: 'IESNA:LM-63-2002\n[__proto__] polluted\n[constructor] x\nTILT=NONE' });
    expect(keywords.get('__PROTO__')).toBe('polluted');
    expect(Object.hasOwn(Object.prototype, 'polluted')).toBe(false);
  });

  it('of a 1986 file are its label lines', () => {
    expect(synthetic('lm63-1986-labels-only.ies').keywords.get('LABEL')).toBe(
      'SYNTHETIC LAMBERTIAN LUMINAIRE\nSECOND FREE LABEL LINE, 4000 LM = NOT A NUMBER LINE',
    );
  });
});

describe('numbers', () => {
  it('may be parted by commas, tabs and line ends of any kind, in any lines', () => {
    const plain = read();
    for (const end of ['\n', '\r\n', '\r']) {
      expect(readLm63('test.ies', text().replaceAll('\n', end))).toEqual(plain);
    }
    const head = 'IESNA:LM-63-2002\n[TEST] none\nTILT=NONE\n';
    expect(
      readLm63('test.ies', `${head}1,-1,\t1 ,3\n1\n1 2 0 0 0 1 1 100\n\n0,45\t90 0 1e3 7.0E+2,\n0.\u001a`),
    ).toEqual(plain);
  });

  it('are read alike with a byte order mark, decoded either way', () => {
    const plain = synthetic('lambert-C-h0.ies').distribution;
    for (const encoding of ['latin1', 'utf8'] as const) {
      const file = readLm63('bom.ies', fixtureText('synthetic/bom-and-exponents.ies', encoding));
      expect(file.edition).toBe(2002);
      expect(file.distribution).toEqual(plain);
    }
  });

  it('left over are told, not used', () => {
    const file = synthetic('trailing-extra-value.ies');
    expect(file.warnings).toEqual(['numbers left over after the last candela value, not used: 1']);
    expect(file.distribution).toEqual(synthetic('lambert-C-h0.ies').distribution);
  });

  it('of a lamp count, lumens or watts that make no sense are told and taken mildly', () => {
    const file = read({ photometric: '0 0 1 3 1 1 2 0 0 0', ballast: '1 1 -5' });
    expect(file.lampCount).toBe(1);
    expect(file.lampLumens_lm).toBeNull();
    expect(file.inputPower_W).toBeNull();
    expect(file.warnings).toHaveLength(3);
  });
});

describe('lamps, power, opening', () => {
  it('state the rated flux of all lamps together, or none for absolute photometry', () => {
    const two = synthetic('multilamp-ballast-mult-C.ies');
    expect(two.lampCount).toBe(2);
    expect(two.lampLumens_lm).toBe(6000);
    expect(two.inputPower_W).toBe(150);
    expect(synthetic('lambert-C-h0.ies').lampLumens_lm).toBeNull();
    expect(read({ ballast: '1 1 0' }).inputPower_W).toBeNull();
  });

  const opening = (sizes: string, units = 2) =>
    read({ photometric: `1 -1 1 3 1 1 ${units} ${sizes}` }).opening;

  it('read a circle in the signs of 1995 and of 2002 alike', () => {
    // published: LM-63-1995 and -2002 tables of shapes (F11).
    const circle = { shape: 'circle', width_m: 0.3, length_m: 0.3, height_m: 0 };
    expect(opening('-0.3 0 0')).toEqual(circle);
    expect(opening('-0.3 -0.3 0')).toEqual(circle);
  });

  it('know points and rectangles, and leave the rest as other', () => {
    expect(opening('0 0 0').shape).toBe('point');
    expect(opening('0.3 0.6 0.1')).toEqual({
      shape: 'rectangle',
      width_m: 0.3,
      length_m: 0.6,
      height_m: 0.1,
    });
    expect(opening('-0.3 -0.6 0').shape).toBe('other');
    expect(opening('-0.3 -0.3 -0.3').shape).toBe('other');
    expect(opening('0.3 0 0').shape).toBe('other');
  });

  it('turn feet into metres', () => {
    // derived: 1 ft = 0.3048 m; luminance at nadir 1000 cd over 0.185806 m².
    const file = synthetic('feet-rect-C.ies');
    expect(file.opening.width_m).toBeCloseTo(0.3048, 12);
    expect(file.opening.length_m).toBeCloseTo(0.6096, 12);
    const area = file.opening.width_m * file.opening.length_m;
    expect(towardC(file.distribution, 0, 0) / area).toBeCloseTo(5381.955208354861, 6);
  });
});

describe('horizontal symmetry, type C', () => {
  // A value for each plane that tells which file plane a direction was taken from.
  const planes = (angles: readonly number[]): string =>
    angles.map((h) => `${h + 1} ${h + 1} ${h + 1}`).join('\n');
  const unfolded = (angles: readonly number[]) =>
    read({
      photometric: `1 -1 1 3 ${angles.length} 1 2 0 0 0`,
      horizontal: angles.join(' '),
      candela: planes(angles),
    }).distribution;
  const source = (angles: readonly number[], c: number): number => towardC(unfolded(angles), c, 60) - 1;

  it('follows the last angle', () => {
    // published: LM-63 on the meaning of the last horizontal angle (F9). Expected: the file plane seen at each C.
    const quadrant = range(0, 90, 15);
    for (const [c, h] of [
      [30, 30],
      [150, 30],
      [210, 30],
      [330, 30],
      [180, 0],
      [270, 90],
    ] as const) {
      expect(source(quadrant, c)).toBeCloseTo(h, 9);
    }
    const bilateral = range(0, 180, 15);
    for (const [c, h] of [
      [30, 30],
      [150, 150],
      [210, 150],
      [330, 30],
      [345, 15],
    ] as const) {
      expect(source(bilateral, c)).toBeCloseTo(h, 9);
    }
    const across = range(90, 270, 15);
    for (const [c, h] of [
      [0, 180],
      [45, 135],
      [315, 225],
      [90, 90],
      [270, 270],
      [200, 200],
    ] as const) {
      expect(source(across, c)).toBeCloseTo(h, 9);
    }
    const whole = range(0, 360, 15);
    expect(source(whole, 345)).toBeCloseTo(345, 9);
  });

  it('closes the circle where the last plane stops short of 360', () => {
    const open = range(0, 345, 15);
    expect(source(open, 345)).toBeCloseTo(345, 9);
    expect(source(open, 352.5)).toBeCloseTo(345 / 2, 9);
    expect(unfolded(open).horizontal_deg.at(-1)).toBe(360);
  });

  it('puts a plane at 0 where a 90–270 file has none at 180', () => {
    // derived: at C 0 the mirror images of 160 and 200 meet, 20° off on both sides.
    const across = [90, 160, 200, 270];
    expect(source(across, 0)).toBeCloseTo(180, 9);
    expect(source(across, 20)).toBeCloseTo(160, 9);
    expect(source(across, 340)).toBeCloseTo(200, 9);
  });

  it('keeps one plane as one', () => {
    expect(unfolded([0]).horizontal_deg).toHaveLength(1);
    expect(source([0], 123)).toBeCloseTo(0, 9);
  });

  it('warns of a wide gap before 360', () => {
    const file = read({
      photometric: '1 -1 1 3 8 1 2 0 0 0',
      horizontal: '0 30 60 90 120 150 180 210',
      candela: '1 1 1 '.repeat(8),
    });
    expect(file.warnings.join()).toMatch(/no plane between horizontal angles 210 and 360/);
  });

  it('refuses ranges that stand for nothing', () => {
    for (const horizontal of ['0 45', '0 135', '90 180', '180 360', '-90 90', '10 350']) {
      const error = refusal({ photometric: '1 -1 1 3 2 1 2 0 0 0', horizontal, candela: '1 1 1 1 1 1' });
      expect(error.code).toBe('BAD_HORIZONTAL_RANGE');
      expect(error.line).toBe(7);
    }
  });

  it('warns where the planes contradict each other at the pole', () => {
    const parts = { photometric: '1 -1 1 3 2 1 2 0 0 0', horizontal: '0 90' };
    expect(read({ ...parts, candela: '1000 5 0\n960 5 0' }).warnings).toEqual([]);
    expect(read({ ...parts, candela: '1000 5 0\n500 5 0' }).warnings.join()).toMatch(
      /disagree.*500 to 1000 cd/,
    );
  });
});

describe('types A and B', () => {
  const read2 = (type: number, vertical: string, horizontal: string, candela: string) =>
    read({
      photometric: `1 -1 1 ${vertical.split(' ').length} ${horizontal.split(' ').length} ${type} 2 0 0 0`,
      vertical,
      horizontal,
      candela,
    });

  it('mirror a file that begins at horizontal 0', () => {
    const file = read2(2, '-90 0 90', '0 45 90', '0 100 0\n0 50 0\n0 0 0');
    expect([...file.distribution.horizontal_deg]).toEqual([-90, -45, 0, 45, 90]);
    expect(towardB(file.distribution, -45, 0)).toBeCloseTo(50, 9);
    expect(towardB(file.distribution, 45, 0)).toBeCloseTo(50, 9);
    expect(file.warnings).toEqual([]);
  });

  it('know their code: 3 is A, 2 is B', () => {
    // published: LM-63 § 3.13 (F8).
    expect(read2(3, '-90 90', '-90 90', '1 1 1 1').distribution.goniometry).toBe('A');
    expect(read2(2, '-90 90', '-90 90', '1 1 1 1').distribution.goniometry).toBe('B');
  });

  it('take a part of the front as measured, dark outside, with a warning', () => {
    const file = read2(3, '-30 30', '-40 40', '1 1 1 1');
    expect(towardA(file.distribution, 39, 29)).toBe(1);
    expect(towardA(file.distribution, 41, 0)).toBe(0);
    expect(file.warnings).toHaveLength(2);
  });

  it('refuse what lies behind or leaves the axis out', () => {
    expect(() => read2(2, '-90 90', '-180 180', '1 1 1 1')).toThrow(/BAD_HORIZONTAL_RANGE/);
    expect(() => read2(2, '-90 90', '10 90', '1 1 1 1')).toThrow(/BAD_HORIZONTAL_RANGE/);
    expect(() => read2(3, '-90 90', '0', '1 1')).toThrow(/BAD_HORIZONTAL_RANGE/);
    expect(() => read2(3, '0 180', '-90 90', '1 1 1 1')).toThrow(/BAD_VERTICAL_RANGE/);
  });
});

describe('radiometric files', () => {
  it('are told from luminous ones by their keywords', () => {
    expect(synthetic('not-candela-mW-per-sr.ies').warnings.join()).toMatch(
      /\[_INTENSITYUNITS\] "mW\/sr".*not candela/,
    );
    expect(read({ head: 'IESNA:LM-63-2002\n[LAMP] 100 W LED\nTILT=NONE' }).warnings).toEqual([]);
  });
});

describe('refusals beyond the broken files', () => {
  it.each([
    ['darkness', { candela: '0 0 0' }, 'NO_LIGHT', 8],
    ['absurd candela', { candela: '1000 1e13 0' }, 'CANDELA_TOO_LARGE', 8],
    ['multipliers that overflow', { photometric: '1 -1 1e308 3 1 1 2 0 0 0' }, 'CANDELA_TOO_LARGE', 8],
    ['overflowing figures', { candela: '1000 1e999 0' }, 'NOT_FINITE', 8],
    ['hexadecimal', { candela: '1000 0x10 0' }, 'NOT_A_NUMBER', 8],
    ['a ballast factor of 0', { ballast: '0 1 100' }, 'BAD_MULTIPLIER', 5],
    ['a vertical count of 1', { photometric: '1 -1 1 1 1 1 2 0 0 0' }, 'BAD_COUNT', 4],
    ['a large product of counts', { photometric: '1 -1 1 20000 20000 1 2 0 0 0' }, 'TOO_LARGE', 4],
    ['angles closer than any goniometer', { vertical: '0 1e-9 90' }, 'ANGLES_NOT_INCREASING', 6],
    ['an empty TILT', { head: 'IESNA:LM-63-2002\n[TEST] none\nTILT=' }, 'NO_TILT', 4],
    ['a tilt geometry of 4', { head: 'A\nB\nTILT=INCLUDE\n4 2 0 90 1 1' }, 'BAD_TILT', 4],
    ['a tilt block that runs out', { head: 'A\nB\nTILT=INCLUDE\n1 500' }, 'TILT_SHORT', 4],
    ['a negative tilt factor', { head: 'A\nB\nTILT=INCLUDE\n1 2 0 90 1 -1' }, 'TILT_SHORT', 4],
    ['a missing tilt factor', { head: 'A\nB\nTILT=INCLUDE\n1 2 0 90 1' }, 'TILT_SHORT', 5],
  ] as const)('%s', (_, parts, code, line) => {
    const error = refusal(parts);
    expect(error.code).toBe(code);
    expect(error.line).toBe(line);
  });

  it('name file, line, what was found, what was expected and the mend, in one line', () => {
    const error = refusal({ candela: '1000 se\u007fven 0' });
    expect(error.message).toBe(
      'test.ies, line 8: found "se ven" for a candela value, expected a number. Put the measured figure there, or fetch the file again: it may be damaged. [NOT_A_NUMBER]',
    );
    expect(refusal({ candela: `1000 ${'x'.repeat(5000)} 0` }).message.length).toBeLessThan(300);
  });
});
