import stringWidth from 'string-width';
import { describe, expect, it } from 'vitest';
import { keyfall, SCENES, temporaryFolder } from '../support/command-line.ts';
import { edited, fullScene, smallScene } from '../support/scenes.ts';

const { file } = temporaryFolder();
const LAMP_AND_CARD = `${SCENES}lamp-and-card.json`;

interface Mark extends Record<string, unknown> {
  readonly id: string;
  readonly illuminance_lx: number;
  readonly stops: number;
  readonly fNumber: number;
  readonly lamps: readonly (Record<string, number> & { readonly id: string })[];
}

async function json(...args: string[]) {
  const { code, out, err } = await keyfall('meter', ...args, '--json');
  expect(err).toBe('');
  expect(code).toBe(0);
  return JSON.parse(out) as Record<string, unknown> & { readonly marks: readonly Mark[] };
}

/** The types of a value's fields, lists by their first member. */
function shapeOf(value: unknown): unknown {
  if (Array.isArray(value)) return value.slice(0, 1).map(shapeOf);
  if (typeof value !== 'object' || value === null) return value === null ? 'null' : typeof value;
  return Object.fromEntries(Object.entries(value).map(([key, member]) => [key, shapeOf(member)]));
}

describe('keyfall meter --json', () => {
  it('has exactly the fields of the contract, and five kinds that say more', async () => {
    const number = 'number';
    const lamp = {
      id: 'string',
      illuminance_lx: number,
      direct_lx: number,
      bounce_lx: number,
      haze_lx: number,
      stops: number,
      distance_m: number,
      incidence_deg: number,
      offAxis_deg: number,
      visible: number,
    };
    const mark = {
      id: 'string',
      receptor: 'string',
      illuminance_lx: number,
      flat_lx: number,
      dome_lx: number,
      stops: number,
      fNumber: number,
      uncertainty: { numerical_stops: number, input_stops: number },
      direct_lx: number,
      bounce_lx: number,
      haze_lx: number,
      sky_lx: number,
      cct_K: number,
      duv: number,
      lamps: [{ ...lamp, hazed_m: number }],
    };
    const exposure = {
      fNumber: number,
      shutter_s: number,
      iso: number,
      calibration: { flat: number, dome: number, reflected: number },
      zero: { flat_lx: number, dome_lx: number, luminance_cd_m2: number },
    };
    const more = { covers: { direct: 'boolean', sky: 'boolean', bounce: 'boolean', haze: 'boolean' } };
    const markMore = { name: 'string', facing: 'string' };
    const exposureMore = { nd_stops: number, loss_stops: number };
    expect(shapeOf(await json(LAMP_AND_CARD))).toEqual({
      keyfall: number,
      title: 'string',
      setup: 'null',
      camera: 'string',
      exposure: { ...exposure, ...exposureMore },
      ...more,
      marks: [{ ...mark, ...markMore }],
    });
  });

  it('is one object on one line and nothing else', async () => {
    const { out } = await keyfall('meter', LAMP_AND_CARD, '--json', '--direct');
    expect(out.endsWith('\n')).toBe(true);
    expect(out.trimEnd()).not.toContain('\n');
    expect(JSON.parse(out)).toMatchObject({ keyfall: 1 });
  });

  it('names version, title, setup, camera and zero', async () => {
    const scene = fullScene();
    // Without its mesh, which names a file.
    const withoutMesh = file('full.json', JSON.stringify({ ...scene, solids: scene.solids!.slice(0, 7) }));
    expect(await json(withoutMesh, '--direct', '--setup', '1a', '--camera', 'a')).toMatchObject({
      keyfall: 1,
      title: 'Every field of version 1',
      setup: '1a',
      camera: 'a',
      exposure: { fNumber: 4, shutter_s: 0.02, iso: 800, nd_stops: 0.3, loss_stops: 0.2 },
      covers: { direct: true, sky: true, bounce: false, haze: false },
    });
  });
});

describe('the numbers of one lamp and one card, by hand', () => {
  // Derived: 125 lx at 4 m is 2000 cd; the marks stand 3.99 m from the lamp, 1 cm before the card; the lamp's face of
  // 5 cm across takes (0.025/3.99)² off at most, 4e-5.
  const E = 2000 / 3.99 ** 2;
  const FACE = 1e-4;

  it('straight light: cosine law for the flat receptor, (1 + cos θ)/2 for the dome', async () => {
    const { marks, exposure } = (await json(LAMP_AND_CARD, '--direct')) as unknown as {
      marks: Mark[];
      exposure: { zero: object };
    };
    const expected = [
      { id: 'square', own: E, flat: E, dome: E, incidence_deg: 0 },
      { id: 'tilted', own: E / 2, flat: E / 2, dome: 0.75 * E, incidence_deg: 60 },
      { id: 'side', own: E / 2, flat: 0, dome: E / 2, incidence_deg: 90 },
    ];
    for (const [i, { id, own, flat, dome, incidence_deg }] of expected.entries()) {
      const mark = marks[i]!;
      expect(mark.id).toBe(id);
      expect(Math.abs(mark.illuminance_lx / own - 1)).toBeLessThan(FACE);
      // Side on, half of the face still looks past the edge of a flat receptor: at most 0.025/3.99 of E.
      expect(Math.abs((mark.flat_lx as number) - flat)).toBeLessThan(
        flat > 0 ? E * FACE : (E * 0.025) / 3.99,
      );
      expect(Math.abs((mark.dome_lx as number) / dome - 1)).toBeLessThan(FACE);
      const [lamp] = mark.lamps;
      expect(lamp).toMatchObject({ id: 'lamp', visible: 1, offAxis_deg: 0 });
      expect(lamp!.distance_m).toBeCloseTo(3.99, 9);
      expect(lamp!.incidence_deg).toBeCloseTo(incidence_deg, 5);
    }
    // Derived: zero = C·N²/(t·S) with N 4, t 1/50, S 800.
    expect(exposure.zero).toEqual({ flat_lx: 250, dome_lx: 330, luminance_cd_m2: 12.5 });
    expect(marks[0]!.stops).toBeCloseTo(Math.log2(E / 250), 3);
    expect(marks[2]!.stops).toBeCloseTo(Math.log2(E / 2 / 330), 3);
    // Derived: N = √(E·S·t/C).
    expect(marks[0]!.fNumber).toBeCloseTo(Math.sqrt((E * 800 * 0.02) / 250), 3);
    expect(marks[2]!.fNumber).toBeCloseTo(Math.sqrt(((E / 2) * 800 * 0.02) / 330), 3);
    for (const mark of marks) expect(mark.cct_K).toBeCloseTo(3200, 3);
  });

  it('metered photometry is good to a third of a stop', async () => {
    // common practice, no source
    for (const mark of (await json(LAMP_AND_CARD)).marks)
      expect((mark.uncertainty as { input_stops: number }).input_stops).toBeCloseTo(1 / 3, 9);
  });

  it('numerical error keeps to what was asked', async () => {
    for (const error of ['0.02', '0.1', '1']) {
      for (const mark of (await json(LAMP_AND_CARD, '--error', error)).marks)
        expect((mark.uncertainty as { numerical_stops: number }).numerical_stops).toBeLessThanOrEqual(
          Number(error),
        );
    }
  });

  it.each(['--direct', '--error=0.2'])('parts add up (%s)', async (option) => {
    const { marks } = await json(`${SCENES}night-quay.json`, option, '--setup', '1a');
    for (const mark of marks) {
      const total = ['direct_lx', 'bounce_lx', 'haze_lx', 'sky_lx'].reduce(
        (sum, key) => sum + (mark[key] as number),
        0,
      );
      expect(Math.abs(total / mark.illuminance_lx - 1)).toBeLessThan(1e-9);
      expect(mark.illuminance_lx).toBe(mark[mark.receptor === 'flat' ? 'flat_lx' : 'dome_lx']);
      for (const part of ['direct_lx', 'bounce_lx', 'haze_lx']) {
        const lamps = mark.lamps.reduce((sum, lamp) => sum + lamp[part]!, 0);
        expect(Math.abs(lamps - (mark[part] as number))).toBeLessThan(1e-9 * mark.illuminance_lx);
      }
      for (const lamp of mark.lamps) {
        const own = lamp.direct_lx! + lamp.bounce_lx! + lamp.haze_lx!;
        expect(Math.abs(lamp.illuminance_lx! - own)).toBeLessThan(1e-9 * mark.illuminance_lx);
        expect(lamp.visible).toBeGreaterThanOrEqual(0);
        expect(lamp.visible).toBeLessThanOrEqual(1);
        // The setup has all lamps off but one; nothing has no stops.
        if (lamp.id !== 'back') expect(lamp).toMatchObject({ illuminance_lx: 0, stops: null });
      }
    }
  });

  it('straight light alone leaves out bounce and haze, and says so', async () => {
    const report = await json(`${SCENES}night-quay.json`, '--direct', '--setup', '1a');
    expect(report.covers).toEqual({ direct: true, sky: true, bounce: false, haze: false });
    for (const mark of report.marks) expect(mark).toMatchObject({ bounce_lx: 0, haze_lx: 0 });
  });

  it('a dark mark has no stops, no f-number and no colour', async () => {
    const path = file('dark.json', JSON.stringify(edited(smallScene(), { 'lamps.0.on': false })));
    const [mark] = (await json(path, '--direct')).marks;
    expect(mark).toMatchObject({ illuminance_lx: 0, stops: null, fNumber: 0, cct_K: null, duv: null });
  });
});

describe('keyfall meter as a table', () => {
  it('shows every mark with receptor, reading, stops, f-number, ± and colour, and the conventions', async () => {
    const { code, out, err } = await keyfall('meter', LAMP_AND_CARD, '--direct');
    expect([code, err]).toEqual([0, '']);
    const lines = out.split('\n');
    expect(lines[0]).toBe('One lamp, one card');
    expect(lines[1]).toBe('Base · camera a · f/4 · 1/50 s · ISO 800');
    expect(
      lines.filter((line) =>
        /^Square to the lamp +flat → 0, 0, 1 +126 +−1 +f\/2\.8 +±0\.3 +3200 K$/.test(line),
      ),
    ).toHaveLength(1);
    for (const name of ['Square to the lamp', 'Tilted 60 degrees', 'Dome, side on'])
      expect(lines.filter((line) => line.startsWith(name))).toHaveLength(2);
    expect(out).toContain('flat 250 lx (C 250), dome 330 lx (C 330), spot 12.5 cd/m² (K 12.5)');
    expect(out).toContain('± is in stops');
    expect(out).toContain('Bounce and the glow of haze are not counted');
    expect(out).toContain('Meter on the night');
  });

  it('says when all light is counted', async () => {
    const { out } = await keyfall('meter', LAMP_AND_CARD, '--error', '0.5');
    expect(out).toContain('All light of lamps and sky');
    expect(out).not.toContain('not counted');
  });

  it('in foot-candles divides by 10.764', async () => {
    const { out } = await keyfall('meter', LAMP_AND_CARD, '--direct', '--unit', 'fc');
    // Derived: 125.6 lx and 250 lx over 10.7639 lx/fc.
    expect(out).toMatch(/^Square to the lamp +flat → 0, 0, 1 +11\.7 +−1 /m);
    expect(out).toContain('flat 23.2 fc (C 250)');
    expect(out).not.toMatch(/\d lx/);
  });

  it('keeps its columns under wide, narrow and joined letters', async () => {
    const names = ['夜の波止場', 'Ada', 'é́ combining', '👩‍🚀 on the quay', 'قارب', 'Ｗｉｄｅ'];
    const scene = edited(smallScene(), {
      marks: names.map((name, i) => ({
        id: `m-${i}`,
        name,
        position_m: [0, 1, 0.01 + 0.1 * i],
        facing: [0, 0, 1],
      })),
    });
    const { out } = await keyfall('meter', file('wide.json', JSON.stringify(scene)), '--direct');
    const rows = out.split('\n').filter((line) => names.some((name) => line.startsWith(name)));
    expect(rows).toHaveLength(2 * names.length);
    const columnOf = (line: string, mark: string) => stringWidth(line.slice(0, line.indexOf(mark)));
    const first = rows.slice(0, names.length);
    expect(new Set(first.map((line) => columnOf(line, 'dome →'))).size).toBe(1);
    expect(new Set(first.map((line) => stringWidth(line))).size).toBe(1);
  });

  it('breaks many lamps into blocks, each lamp once, the sky last', async () => {
    const lamps = Array.from({ length: 13 }, (_, i) => ({ ...smallScene().lamps![0]!, id: `lamp-${i}` }));
    const { out } = await keyfall(
      'meter',
      file('many.json', JSON.stringify({ ...smallScene(), lamps })),
      '--direct',
    );
    const heads = out.split('\n').filter((line) => line.startsWith('By lamp'));
    expect(heads).toHaveLength(3);
    for (const { id } of lamps)
      expect(
        heads
          .join('  ')
          .split(/ +/)
          .filter((word) => word === id),
      ).toHaveLength(1);
    expect(heads.map((head) => head.endsWith('sky'))).toEqual([false, false, true]);
  });
});

describe('setups and cameras', () => {
  const path = () =>
    file(
      'setups.json',
      JSON.stringify({
        ...smallScene(),
        cameras: [smallScene().cameras![0]!, { ...smallScene().cameras![0]!, id: 'b', fNumber: 8 }],
        setups: [{ id: 'half', changes: { key: { level: 0.5 } } }],
      }),
    );

  it('change the numbers as they say', async () => {
    const [base] = (await json(path(), '--direct')).marks;
    const [half] = (await json(path(), '--direct', '--setup', 'half')).marks;
    const [b] = (await json(path(), '--direct', '--camera', 'b')).marks;
    expect(half!.illuminance_lx / base!.illuminance_lx).toBeCloseTo(0.5, 9);
    expect(half!.stops - base!.stops).toBeCloseTo(-1, 9);
    expect(b!.stops - base!.stops).toBeCloseTo(-2, 9);
  });

  it('are named in the heading', async () => {
    const { out } = await keyfall('meter', path(), '--direct', '--setup', 'half', '--camera', 'b');
    expect(out.split('\n')[1]).toBe('Setup half · camera b · f/8 · 1/50 s · ISO 800');
  });
});
