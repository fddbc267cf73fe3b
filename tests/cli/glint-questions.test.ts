import { describe, expect, it } from 'vitest';
import { keyfall, SCENES, temporaryFolder } from '../support/command-line.ts';
import { rakedSide } from '../support/raked-side.ts';

const { file } = temporaryFolder();
const DEMO = `${SCENES}night-quay.json`;
const MOVES = {
  paths: [
    {
      id: 'track-back',
      name: 'Track back',
      of: 'a',
      points: [
        { t_s: 0, position_m: [0, 1.5, 6] },
        { t_s: 6, position_m: [-6, 1.5, 6] },
      ],
    },
  ],
};
const SIDE = file('side.json', JSON.stringify(rakedSide(MOVES)));
const FAR = file('far.json', JSON.stringify(rakedSide({ ...MOVES, 'lamps.0.position_m': [60, 3, 2] })));
const OFF = file('off.json', JSON.stringify(rakedSide({ 'lamps.0.on': false })));

describe('keyfall glints --clear-region', () => {
  it('says where the lamp may stand, in words', async () => {
    const { code, out } = await keyfall('glints', SIDE, '--clear-region', 'back', '--within', '20,0.2,32,6');
    expect(code).toBe(0);
    expect(out).toContain('back, 3 m up, aim kept, as camera a sees it');
    expect(out).toMatch(/It is not clear where it stands; the nearest clear place is 0\.\d+ m off, at x 2\d/);
    expect(out).toMatch(/Straight back: clear from 2\.\d+ m to 7 m, the end of what was looked at\./);
    expect(out).toContain('Light at rim against now');
    expect(out).toContain('Planning aid only.');
  });

  it('and as one object, with polygons and contours', async () => {
    const { code, out } = await keyfall(
      'glints',
      SIDE,
      '--clear-region',
      'back',
      '--within',
      '20,0.2,32,6',
      '--json',
    );
    expect(code).toBe(0);
    const { clearRegion } = JSON.parse(out) as { clearRegion: Record<string, unknown> };
    expect(clearRegion).toMatchObject({
      lamp: 'back',
      camera: 'a',
      solids: null,
      height_m: 3,
      low_m: [20, 0.2],
      high_m: [32, 6],
      spacing_m: 0.25,
      clearHere: false,
      keptOut: [],
      stops: { mark: 'rim' },
    });
    const [outline] = (clearRegion.clear as number[][][][])[0]!;
    expect(outline!.length).toBeGreaterThan(3);
    expect(outline![0]).toEqual(outline!.at(-1));
  });

  it('answers no where there is no clear place', async () => {
    const { code, out } = await keyfall(
      'glints',
      SIDE,
      '--clear-region',
      'back',
      '--within',
      '24.8,1.9,25.2,2.1',
    );
    expect(code).toBe(1);
    expect(out).toContain('Nowhere in what was looked at is it clear at this height.');
  });

  it.each<[string, string[], string]>([
    [
      'an unknown lamp',
      [DEMO, '--clear-region', 'bakc'],
      'found no lamp "bakc"; expected one of back, key, cabin, rim, fill, edge; did you mean "back"?',
    ],
    ['an unknown solid', [DEMO, '--clear-region', 'back', '--solid', 'baot'], 'found no solid "baot"'],
    ['an unknown mark', [DEMO, '--clear-region', 'back', '--mark', 'ada'], 'found no mark "ada"'],
    ['a lamp that is off', [OFF, '--clear-region', 'back'], 'found a lamp that is off'],
    [
      'three numbers',
      [DEMO, '--clear-region', 'back', '--within', '1,2,3'],
      '--within 1,2,3: give two opposite corners',
    ],
    ['no rectangle', [DEMO, '--clear-region', 'back', '--within', '1,2,1,5'], 'at most 400 m apart each way'],
    [
      'words',
      [DEMO, '--clear-region', 'back', '--within', 'a,b,c,d'],
      '--within a,b,c,d: give two opposite corners',
    ],
    ['its options alone', [DEMO, '--solid', 'boat'], '--solid goes with --clear-region LAMP'],
    ['two questions', [DEMO, '--clear-region', 'back', '--along', 'crossing'], 'ask one at a time'],
  ])('refuses %s', async (_, args, message) => {
    const { code, out, err } = await keyfall('glints', ...args);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain(message);
  });
});

describe('keyfall glints --along', () => {
  it('gives tape marks along the move, and answers no', async () => {
    const { code, out } = await keyfall('glints', SIDE, '--along', 'track-back');
    expect(code).toBe(1);
    expect(out).toContain('Track back: camera a, 6 m from 0 s to 6 s, as camera a sees it');
    expect(out).toContain('Lamps mirror white in frame on 6 m of it.');
    // The lamp stands at 25 m, where it mirrors from the first.
    expect(out).toContain('back in body: white all the way; the middle of the lamp shows from 0 m to 6 m;');
  });

  it('answers yes where nothing burns', async () => {
    const { code, out } = await keyfall('glints', FAR, '--along', 'track-back');
    expect(code).toBe(0);
    expect(out).toContain('No lamp mirrors white in frame anywhere along this move.');
  });

  it('and as one object', async () => {
    const { out } = await keyfall('glints', SIDE, '--along', 'track-back', '--json');
    expect(JSON.parse(out)).toMatchObject({
      keyfall: 1,
      title: 'Raked side',
      setup: null,
      along: {
        path: 'track-back',
        moves: { kind: 'camera', id: 'a' },
        length_m: 6,
        runs: [{ lamp: 'back', solid: 'body', from_s: 0, to_s: 6, image: { from_m: 0, to_m: 6 } }],
      },
    });
  });

  it.each<[string, string[], string]>([
    [
      'an unknown path',
      [SIDE, '--along', 'trackback'],
      'found no path "trackback"; expected one of track-back; did you mean "track-back"?',
    ],
    ['a scene without moves', [OFF, '--along', 'x'], 'found no path "x"; expected a scene with paths'],
    ['a walker’s move', [DEMO, '--along', 'crossing'], 'found "walker"; expected a camera or a lamp'],
  ])('refuses %s', async (_, args, message) => {
    const { code, out, err } = await keyfall('glints', ...args);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain(message);
  });
});

describe('keyfall glints', () => {
  it('has cures of every glint that burns in frame, and none of the others', async () => {
    const { code, out } = await keyfall('glints', SIDE, '--json');
    expect(code).toBe(1);
    const { glints } = JSON.parse(out) as {
      glints: { burns: boolean; cures: { change: string; by_m: number; cost_stops: number | null }[] }[];
    };
    expect(glints.some(({ burns }) => burns)).toBe(true);
    for (const { burns, cures } of glints) {
      expect(cures.length > 0).toBe(burns);
      for (const cure of cures) {
        expect(cure.change).toMatch(/^(lamp|camera)-[a-z-]+$/);
        expect(cure.by_m).toBeGreaterThan(0);
        expect(Number.isFinite(cure.cost_stops)).toBe(true);
      }
    }
    const text = await keyfall('glints', SIDE);
    expect(text.out).toMatch(/Clear if: stand up 0\.\d m, to 3\.\d m \(no light lost\); /);
  });
});
