import { describe, expect, it } from 'vitest';
import { readEulumdat } from '../../../src/core/photometry/eulumdat.ts';
import { PhotometryError } from '../../../src/core/photometry/photometry-error.ts';
import { fixtureText, range, synthetic, towardC } from './fixture.ts';

interface Parts {
  readonly symmetry?: number | string;
  readonly planes?: number | string;
  readonly gammas?: number | string;
  readonly conversion?: string;
  readonly tilt?: string;
  readonly opening?: readonly string[];
  readonly lamps?: readonly string[];
  readonly c_deg?: readonly number[];
  readonly gamma_deg?: readonly number[];
  readonly intensities?: readonly number[];
}

const LAMP = ['1', 'lamp', '1000', '3200', '95', '100'];

function text(parts: Parts = {}): string {
  const gamma_deg = parts.gamma_deg ?? [0, 45, 90];
  return [
    'maker, none',
    1,
    parts.symmetry ?? 1,
    parts.planes ?? 1,
    0,
    parts.gammas ?? gamma_deg.length,
    0,
    'report',
    'luminaire',
    'number',
    'file',
    'date',
    ...[500, 300, 100],
    ...(parts.opening ?? ['400', '200', '0', '0', '0', '0']),
    ...[100, 80],
    parts.conversion ?? '1',
    parts.tilt ?? '0',
    ...(parts.lamps ?? ['1', ...LAMP]),
    ...Array(10).fill(0),
    ...(parts.c_deg ?? [0]),
    ...gamma_deg,
    ...(parts.intensities ?? [1000, 700, 0]),
  ].join('\r\n');
}

function read(parts: Parts = {}, lampSet = 0) {
  return readEulumdat('test.ldt', text(parts), lampSet);
}

function refusal(parts: Parts, lampSet = 0): PhotometryError {
  try {
    read(parts, lampSet);
  } catch (error) {
    if (error instanceof PhotometryError) return error;
    throw error;
  }
  throw new Error('was accepted');
}

describe('symmetries', () => {
  const all = range(0, 345, 15);
  // Each stored plane carries its own angle + 1, so that a direction tells which plane it was taken from.
  const source = (symmetry: number, stored: readonly number[], c: number): number => {
    const { distribution } = read({
      symmetry,
      planes: 24,
      c_deg: all,
      intensities: stored.flatMap((h) => [h + 1, h + 1, h + 1]),
    });
    return towardC(distribution, c, 60) - 1;
  };

  it('store the planes that Stockmar counts', () => {
    // published: Mc, 1, Mc/2 + 1, Mc/2 + 1 from C 270, Mc/4 + 1 (F15). Expected: the stored plane seen at each C.
    for (const [c, h] of [
      [0, 0],
      [195, 195],
      [345, 345],
      [352.5, 172.5],
    ] as const) {
      expect(source(0, all, c)).toBeCloseTo(h, 9);
    }
    expect(source(1, [0], 123)).toBeCloseTo(0, 9);
    for (const [c, h] of [
      [30, 30],
      [210, 150],
      [330, 30],
    ] as const) {
      expect(source(2, range(0, 180, 15), c)).toBeCloseTo(h, 9);
    }
    const from270 = [...range(270, 345, 15), ...range(0, 90, 15)];
    for (const [c, h] of [
      [270, 270],
      [300, 300],
      [0, 0],
      [90, 90],
      [180, 0],
      [150, 30],
      [240, 300],
    ] as const) {
      expect(source(3, from270, c)).toBeCloseTo(h, 9);
    }
    for (const [c, h] of [
      [30, 30],
      [150, 30],
      [210, 30],
      [330, 30],
      [270, 90],
    ] as const) {
      expect(source(4, range(0, 90, 15), c)).toBeCloseTo(h, 9);
    }
  });

  it('are refused where the planes cannot carry them', () => {
    const five = { planes: 5, c_deg: [0, 72, 144, 216, 288], intensities: Array(15).fill(1) };
    for (const symmetry of [2, 3, 4]) {
      const error = refusal({ ...five, symmetry });
      expect(error.code).toBe('BAD_COUNT');
      expect(error.message).toMatch(/5 C-planes with symmetry/);
    }
    expect(refusal({ symmetry: 0 }).code).toBe('BAD_COUNT');
    const off = { planes: 4, c_deg: [0, 80, 170, 260], intensities: Array(12).fill(1) };
    for (const symmetry of [2, 3, 4]) expect(refusal({ ...off, symmetry }).code).toBe('BAD_HORIZONTAL_RANGE');
    const beyond = { planes: 4, c_deg: [0, 90, 270, 1000], intensities: Array(9).fill(1) };
    expect(refusal({ ...beyond, symmetry: 3 }).code).toBe('BAD_HORIZONTAL_RANGE');
    expect(refusal({ symmetry: 0, planes: 2, c_deg: [10, 100], intensities: Array(6).fill(1) }).code).toBe(
      'BAD_HORIZONTAL_RANGE',
    );
  });
});

describe('lamp sets', () => {
  it('are chosen by index, the first unless asked; their flux is the total of the set', () => {
    // published: LAMP_FLUX is the total luminous flux of the set (F16). Derived: nadir 200 cd/klm.
    const a = synthetic('two-lamp-sets.ldt');
    expect(towardC(a.distribution, 0, 0)).toBeCloseTo(1000, 9);
    expect([a.lampCount, a.lampLumens_lm, a.inputPower_W]).toEqual([1, 5000, 100]);
    const b = synthetic('two-lamp-sets.ldt', 1);
    expect(towardC(b.distribution, 0, 0)).toBeCloseTo(1600, 9);
    expect([b.lampCount, b.lampLumens_lm, b.inputPower_W]).toEqual([2, 8000, 220]);
    expect(b.keywords.get('LAMP')).toBe('set B two lamps, total flux');
  });

  it('are refused where there is none of that index', () => {
    for (const lampSet of [2, -1, 0.5]) {
      expect(() => synthetic('two-lamp-sets.ldt', lampSet)).toThrow(/NO_SUCH_LAMP_SET/);
    }
    expect(() => synthetic('two-lamp-sets.ldt', 2)).toThrow(/found 2 lamp sets.*Ask for 0 to 1/);
  });

  it('with a negative count are absolute, their values still per kilolumen', () => {
    const file = synthetic('absolute-negative-lamps.ldt');
    expect(file.lampCount).toBe(1);
    expect(file.lampLumens_lm).toBeNull();
    expect(towardC(file.distribution, 0, 0)).toBeCloseTo(1000, 9);
  });

  it('refuse a flux of zero only in the chosen set', () => {
    const lamps = ['2', ...LAMP, '1', 'other', '0', '', '', ''];
    expect(read({ lamps }).lampLumens_lm).toBe(1000);
    expect(refusal({ lamps }, 1).code).toBe('BAD_FLUX');
  });
});

describe('fields', () => {
  it('scale by the conversion factor', () => {
    expect(towardC(synthetic('conversion-factor.ldt').distribution, 0, 0)).toBeCloseTo(1000, 9);
    expect(refusal({ conversion: '0' }).code).toBe('BAD_MULTIPLIER');
  });

  it('may use decimal commas', () => {
    const file = synthetic('comma-decimals.ldt');
    expect(file.distribution.vertical_deg[1]).toBe(2.5);
    expect(towardC(file.distribution, 0, 60)).toBeCloseTo(500, 6);
    expect(read({ conversion: '0,5' }).distribution.candela[0]).toBe(500);
  });

  it('let the listed gamma angles rule', () => {
    const file = synthetic('uneven-gamma-step0.ldt');
    expect([...file.distribution.vertical_deg]).toEqual([0, 2, 5, 10, 20, 30, 45, 60, 75, 90]);
    expect(towardC(file.distribution, 0, 0)).toBeCloseTo(1000, 9);
  });

  it('keep the tilt during measurement, and say so', () => {
    const file = read({ tilt: '15' });
    expect(file.measurementTilt_deg).toBe(15);
    expect(file.warnings.join()).toMatch(/tilt of 15 degrees/);
    expect(read().warnings).toEqual([]);
  });

  it('give the luminous area in metres; width 0 is a circle', () => {
    expect(read().opening).toEqual({ shape: 'rectangle', length_m: 0.4, width_m: 0.2, height_m: 0 });
    expect(read({ opening: ['250', '0', '10', '20', '0', '0'] }).opening).toEqual({
      shape: 'circle',
      length_m: 0.25,
      width_m: 0.25,
      height_m: 0.02,
    });
    expect(read({ opening: ['0', '0', '0', '0', '0', '0'] }).opening.shape).toBe('point');
  });

  it('stand under the keywords of LM-63', () => {
    const { keywords, format, edition } = read();
    expect(format).toBe('EULUMDAT');
    expect(edition).toBeNull();
    expect(keywords.get('MANUFAC')).toBe('maker, none');
    expect(keywords.get('LUMINAIRE')).toBe('luminaire');
  });

  it('left blank mean 0, and line ends of any kind count', () => {
    const plain = read();
    expect(read({ tilt: '' })).toEqual(plain);
    for (const end of ['\n', '\r'])
      expect(readEulumdat('test.ldt', text().replaceAll('\r\n', end))).toEqual(plain);
    expect(readEulumdat('test.ldt', `\u00ef\u00bb\u00bf${text()}\r\n\r\n\u001a`)).toEqual(plain);
  });

  it('beyond the last intensity are told', () => {
    expect(readEulumdat('test.ldt', `${text()}\r\n5\r\n6`).warnings).toEqual([
      'numbers left over after the last candela value, not used: 2',
    ]);
  });

  it('warn of gamma angles that leave part of a hemisphere dark', () => {
    expect(read({ gamma_deg: [0, 40, 80] }).warnings.join()).toMatch(/gamma angles 0 to 80.*dark/);
    expect(refusal({ gamma_deg: [0, 90, 200] }).code).toBe('BAD_VERTICAL_RANGE');
  });

  it('refuse counts that are not counts, naming the line', () => {
    expect(refusal({ planes: '1.5' })).toMatchObject({ code: 'BAD_COUNT', line: 4 });
    expect(refusal({ gammas: '1e9' })).toMatchObject({ code: 'TOO_LARGE', line: 6 });
    expect(refusal({ lamps: ['1000', ...LAMP] })).toMatchObject({ code: 'TOO_LARGE', line: 26 });
    expect(refusal({ intensities: [0, 0, 0] }).code).toBe('NO_LIGHT');
  });

  it('end early: every cut before the last intensity is refused', () => {
    const lines = fixtureText('synthetic/isym4-both.ldt').trimEnd().split(/\r?\n/);
    for (let kept = 1; kept < lines.length; kept++) {
      const cut = lines.slice(0, kept).join('\r\n');
      expect(() => readEulumdat('cut.ldt', cut)).toThrow(PhotometryError);
    }
    expect(readEulumdat('whole.ldt', lines.join('\n')).distribution.candela.length).toBe(25 * 19);
  });
});
