import { describe, expect, it } from 'vitest';
import { keyfall, SCENES, temporaryFolder } from '../support/command-line.ts';
import { edited } from '../support/scenes.ts';

const folder = temporaryFolder();

/** A person in black velvet before a white wall that a lamp washes; nothing lights the person from the camera's side. */
const SCENE = {
  keyfall: 1,
  title: 'Velvet and wall',
  materials: { 'own-cloth': { name: 'Own cloth', reflectance: 0.3 } },
  solids: [
    {
      id: 'wall',
      name: 'Wall',
      shape: 'panel',
      position_m: [0, 2, -3],
      material: 'matte-white',
      size_m: [12, 8],
    },
  ],
  figures: [
    {
      id: 'ada',
      name: 'Ada',
      position_m: [0, 0, 0],
      skin: 'velvet-black',
      upper: 'velvet-black',
      lower: 'velvet-black',
    },
    { id: 'ben', name: 'Ben', position_m: [60, 0, 0], upper: 'own-cloth' },
  ],
  heads: {
    wash: {
      photometry: { kind: 'beam', peak_cd: 3000, beam_deg: 90, field_deg: 130 },
      face: { shape: 'disc', diameter_m: 0.3 },
      spectrum: { kind: 'planck', cct_K: 5600 },
    },
  },
  lamps: [{ id: 'wash', name: 'Wash', head: 'wash', position_m: [0, 3, -1], aim_m: [0, 1, -3] }],
  cameras: [
    {
      id: 'a',
      position_m: [0, 1.2, 7],
      look_m: [0, 0.9, 0],
      sensor_mm: [36, 24],
      focal_mm: 60,
      fNumber: 4,
      shutter_s: 0.02,
      iso: 800,
      whiteBalance_K: 5600,
    },
  ],
};
const SET = folder.file('set.json', JSON.stringify(SCENE));
const withChanges = (name: string, changes: Record<string, unknown>) =>
  folder.file(name, JSON.stringify(edited(SCENE, changes)));

describe('keyfall separation', () => {
  it('finds a black figure before a bright wall standing out all round, and one out of frame not at all', async () => {
    const { code, out } = await keyfall('separation', SET, '--json');
    const { figures, camera, monochrome } = JSON.parse(out);
    const [ada, ben] = figures;
    expect(code).toBe(0);
    expect([camera, monochrome]).toEqual(['a', null]);
    expect(ada).toMatchObject({ id: 'ada', share_over_1_stop: 1, lighter_share: 0, merges: false });
    // derived: velvet of 0.006 lit by no more than the wall of 0.8 is lit: at least log₂(0.8/0.006) = 7 stops, less the light
    // of the wall itself that comes back off the figure's sides
    expect(ada.median_stops).toBeGreaterThan(4);
    expect(ada.worst.behind).toBe('Wall');
    expect(ada.worst.stops).toBeLessThan(-1);
    expect(ada.worst.pixel.every((v: number) => v >= 0 && v <= 1)).toBe(true);
    expect(ada.uncertainty.input_stops).toBeGreaterThanOrEqual(0.5);
    expect(ada.uncertainty.numerical_stops).toBeLessThan(0.1 * ada.median_stops);
    expect(ada.samples.length).toBeGreaterThanOrEqual(100);
    expect(ben).toMatchObject({ id: 'ben', outOfFrame: 1, share_over_1_stop: null, worst: null });
  });

  it('says so in words', async () => {
    const { out } = await keyfall('separation', SET);
    expect(out).toMatch(
      /Ada: 100 % of the outline stands out by 1 stop or more \(±\d\.\d stop\)\. Worst: .+ darker than Wall/,
    );
    expect(out).toContain('Ben: out of this camera’s frame');
    expect(out).toContain('two blacks or two whites do not separate');
  });

  it('says no when a figure merges: black on black', async () => {
    // derived: 1 cd lights nothing to the camera's floor of 12.5/256 cd/m²
    const dark = withChanges('dark.json', { 'heads.wash.photometry.peak_cd': 1 });
    const { code, out } = await keyfall('separation', dark, '--figure', 'ada', '--json');
    const [ada] = JSON.parse(out).figures;
    expect(code).toBe(1);
    expect(ada).toMatchObject({ share_over_1_stop: 0, merges: true, median_stops: 0, deltaE: 0 });
    expect(ada.worst.merged).toBe('black');
    const text = (await keyfall('separation', dark, '--figure', 'ada')).out;
    expect(text).toMatch(/Merges\. Worst: .+ black against Wall, black too/);
  });

  it('says no when nobody is in frame, and does not call that separate', async () => {
    const { code, out } = await keyfall('separation', SET, '--figure', 'ben');
    expect(code).toBe(1);
    expect(out).toContain('out of this camera’s frame');
  });

  it('ranks cloths, the lighter ones worse before a white wall', async () => {
    // A soft light by the camera lifts every cloth over the camera's floor.
    const lit = withChanges('lit.json', {
      'lamps.1': { id: 'fill', head: 'wash', position_m: [1.5, 2, 6], aim_m: [0, 1, 0], level: 0.3 },
    });
    const { out } = await keyfall('separation', lit, '--figure', 'ada', '--wardrobe', '--json');
    const { wardrobe } = JSON.parse(out).figures[0];
    const place = (material: string) =>
      wardrobe.findIndex((row: { material: string }) => row.material === material);
    const median = (material: string) => wardrobe[place(material)].median_stops;
    expect(wardrobe.find((row: { worn: boolean }) => row.worn).material).toBe('velvet-black');
    expect(place('own-cloth')).toBeGreaterThanOrEqual(0);
    expect(median('velvet-black')).toBeGreaterThan(median('wool-dark'));
    expect(median('wool-dark')).toBeGreaterThan(median('wool-grey'));
    expect(median('wool-grey')).toBeGreaterThan(median('cotton-white'));
    // derived: one light on one shape: contrast differs by the ratio of reflectances, log₂(0.14/0.04) = 1.81; skin stays
    expect(Math.abs(median('wool-dark') - median('wool-grey') - 1.81)).toBeLessThan(0.4);
  }, 60_000);

  it('ranks monochrome conversions, each with its noise, and takes one by name', async () => {
    const { out } = await keyfall('separation', SET, '--figure', 'ada', '--monochrome-table', '--json');
    const { conversions } = JSON.parse(out).figures[0];
    const names = conversions.map((row: { conversion: string }) => row.conversion);
    for (const name of ['plain luminance', 'red filter', 'blue filter', 'mix 0.8/0.2/0'])
      expect(names).toContain(name);
    const named = JSON.parse((await keyfall('separation', SET, '--monochrome', 'red', '--json')).out);
    expect(named.monochrome).toBe('red filter');
  }, 60_000);

  it("takes the camera's own conversion unless told otherwise", async () => {
    const own = withChanges('own.json', { 'cameras.0.monochrome': { filter: 'green' } });
    const monochrome = async (...args: string[]) =>
      JSON.parse((await keyfall('separation', own, '--figure', 'ada', '--json', ...args)).out).monochrome;
    expect(await monochrome()).toBe('green filter');
    expect(await monochrome('--monochrome', 'none')).toBeNull();
  }, 60_000);

  it('refuses nonsense, and says what it takes', async () => {
    const nobody = withChanges('nobody.json', { figures: [] });
    const blind = withChanges('blind.json', { cameras: [] });
    const unlit = withChanges('unlit.json', { 'lamps.0.on': false });
    for (const [file, args, words] of [
      [SET, ['--figure', 'adda'], 'did you mean "ada"'],
      [SET, ['--camera', 'z'], 'no camera "z"'],
      [SET, ['--setup', 'z'], 'no setup "z"'],
      [SET, ['--monochrome', 'sepia'], 'luminance, yellow'],
      [SET, ['--monochrome', '1,1,1'], 'add up to 3'],
      [SET, ['--error', '0'], '--error'],
      [nobody, [], 'no figures'],
      [blind, [], 'no camera'],
      [unlit, [], 'no lamp that is on, and no sky'],
      [`${SCENES}lamp-and-card.json`, [], 'no figures'],
    ] as const) {
      const { code, out, err } = await keyfall('separation', file, ...args);
      expect(code, err).toBe(2);
      expect(out).toBe('');
      expect(err).toContain(words);
    }
  });
});
