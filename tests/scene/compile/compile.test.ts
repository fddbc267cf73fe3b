import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Part, Shape } from '../../../src/core/geometry/shape.ts';
import type { LightModel } from '../../../src/core/light-model/light-model.ts';
import { conversionGel, conversionGelOfTransmission } from '../../../src/core/spectra/conversion-filter.ts';
import { lampSpectrum } from '../../../src/core/spectra/lamp-spectrum.ts';
import { Y_BAR } from '../../../src/core/spectra/observer.ts';
import { resampled } from '../../../src/core/spectra/wavelengths.ts';
import { compileScene, newCompileMemo } from '../../../src/scene/compile/compile-scene.ts';
import { readSceneFiles, type SceneFiles } from '../../../src/scene/files/scene-files.ts';
import { LIBRARY } from '../../../src/scene/library/library.ts';
import { SPECTRUM_TABLES } from '../../../src/scene/library/spectra.ts';
import { meterScene } from '../../../src/scene/meter/meter-scene.ts';
import { SceneError } from '../../../src/scene/problems/problem.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import type { Head } from '../../../src/scene/schema/head.ts';
import type { Solid } from '../../../src/scene/schema/solid.ts';
import { applySetup } from '../../../src/scene/setups/apply-setup.ts';
import { opened, smallScene } from '../../support/scenes.ts';
import { IDENTITY } from '../../tolerances.ts';

const NO_FILES: SceneFiles = { photometry: new Map(), meshes: new Map() };

/** A face of a millimetre is a point to a meter metres away: what it falls short by is (r/d)², under 1e-7 here. */
const POINT_FACE = 1e-6;

/** A table is bent at its angles, and even a face of a millimetre straddles the bend. */
const TABLE_BEND = 1e-4;

async function withFiles(
  scene: SceneDocument,
): Promise<{ scene: SceneDocument; files: SceneFiles; model: LightModel }> {
  const { files, problems } = await readSceneFiles(opened(scene), async (name) =>
    readFileSync(new URL(`../../fixtures/photometry/synthetic/${name}`, import.meta.url)),
  );
  expect(problems.filter((p) => p.severity === 'error')).toEqual([]);
  return { scene, files, model: compileScene(scene, files) };
}

function reading_lx(scene: SceneDocument, model = compileScene(scene, NO_FILES), mark = 0): number {
  return meterScene(scene, model, { light: 'direct' }).marks[mark]!.illuminance_lx;
}

/** One lamp and one mark in the open, nothing else. */
function openAir(
  lamp: Partial<NonNullable<SceneDocument['lamps']>[0]>,
  mark: Partial<NonNullable<SceneDocument['marks']>[0]>,
  more: Partial<SceneDocument> = {},
): SceneDocument {
  const scene = { ...smallScene(), ...more };
  scene.solids = [];
  scene.heads!.plain!.face = { shape: 'disc', diameter_m: 0.001 };
  Object.assign(scene.lamps![0]!, lamp);
  Object.assign(scene.marks![0]!, mark);
  return opened(scene);
}

/** −0 is 0 to anyone who builds a set. */
function withoutMinusZero(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value));
}

function close(actual: number, expected: number, relative: number): void {
  expect(Math.abs(actual / expected - 1)).toBeLessThan(relative);
}

describe('solids', () => {
  const at = { position_m: [1, 2, 3] as [number, number, number], material: 'concrete' };
  const placement = { origin_m: [1, 2, 3], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] };

  function partsOf(solid: Solid): readonly Part[] {
    return compileScene(opened({ keyfall: 1, title: '', solids: [solid] }), NO_FILES).parts;
  }

  const rows: readonly (readonly [solid: Solid, shape: object])[] = [
    [
      { id: 's', shape: 'box', ...at, size_m: [2, 4, 6] },
      { kind: 'box', placement, halfSize_m: [1, 2, 3] },
    ],
    [
      { id: 's', shape: 'cylinder', ...at, radius_m: 0.5, height_m: 3 },
      { kind: 'cylinder', placement, radius_m: 0.5, halfHeight_m: 1.5 },
    ],
    [
      { id: 's', shape: 'sphere', ...at, radius_m: 0.5 },
      { kind: 'sphere', centre_m: [1, 2, 3], radius_m: 0.5 },
    ],
    // Its length is over all: the straight part is what the two round ends leave of it.
    [
      { id: 's', shape: 'capsule', ...at, radius_m: 0.5, length_m: 3 },
      { kind: 'capsule', placement, radius_m: 0.5, halfLength_m: 1 },
    ],
    [
      { id: 's', shape: 'capsule', ...at, radius_m: 0.5, length_m: 1 },
      { kind: 'capsule', placement, radius_m: 0.5, halfLength_m: 0 },
    ],
    [
      { id: 's', shape: 'panel', ...at, size_m: [4, 2] },
      { kind: 'panel', placement, halfSize_m: [2, 1], openings: [] },
    ],
    [
      {
        id: 's',
        shape: 'panel',
        ...at,
        size_m: [4, 2],
        openings: [{ left_m: 1, bottom_m: 0.5, width_m: 2, height_m: 1 }],
      },
      {
        kind: 'panel',
        placement,
        halfSize_m: [2, 1],
        openings: [{ left_m: -1, bottom_m: -0.5, right_m: 1, top_m: 0.5 }],
      },
    ],
  ];
  it.each(rows)('%j', (solid, shape) => {
    const parts = partsOf(solid);
    expect(withoutMinusZero(parts.map((p) => p.shape))).toEqual([shape]);
    expect(parts[0]).toMatchObject({ substance: { kind: 'material', index: 0 }, owner: 0 });
  });

  it('a pane is a sheet of its pane material', () => {
    const solid: Solid = {
      id: 's',
      shape: 'pane',
      position_m: [1, 2, 3],
      size_m: [4, 2],
      pane: 'clear-glass',
    };
    expect(withoutMinusZero(partsOf(solid))).toEqual([
      {
        shape: { kind: 'panel', placement, halfSize_m: [2, 1], openings: [] },
        substance: { kind: 'pane', index: 0 },
        owner: 0,
      },
    ]);
  });

  it('turn by heading, then tilt, then bank', () => {
    const [part] = partsOf({ id: 's', shape: 'box', ...at, rotation_deg: [0, 90, 0], size_m: [2, 4, 6] });
    const turned = (part!.shape as Extract<Shape, { kind: 'box' }>).placement;
    // A quarter turn of heading takes local x to −z and local z to +x.
    const rounded = (v: readonly number[]) => withoutMinusZero(v.map((c) => Math.round(c)));
    expect(rounded(turned.x)).toEqual([0, 0, -1]);
    expect(rounded(turned.z)).toEqual([1, 0, 0]);
  });

  it('a mesh is its triangles, scaled and placed', () => {
    const scene = opened({
      keyfall: 1,
      title: '',
      solids: [{ id: 'm', shape: 'mesh', ...at, file: 'tri.glb', scale: 2 }],
    });
    const mesh = { positions: Float64Array.of(0, 0, 0, 1, 0, 0, 0, 1, 0), indices: Uint32Array.of(0, 1, 2) };
    const { parts } = compileScene(scene, { photometry: new Map(), meshes: new Map([['tri.glb', mesh]]) });
    expect(parts.map((p) => p.shape)).toEqual([
      { kind: 'triangle', a_m: [1, 2, 3], b_m: [3, 2, 3], c_m: [1, 4, 3] },
    ]);
  });

  it('belong to their owner, in the order of solids and figures', () => {
    const model = compileScene(
      opened({
        keyfall: 1,
        title: '',
        solids: [
          { id: 'a', name: 'Box A', shape: 'box', ...at, size_m: [1, 1, 1] },
          { id: 'b', shape: 'box', ...at, size_m: [1, 1, 1] },
        ],
        figures: [{ id: 'ada', position_m: [0, 0, 0] }],
      }),
      NO_FILES,
    );
    expect(model.owners).toEqual([
      { id: 'a', name: 'Box A' },
      { id: 'b', name: 'b' },
      { id: 'ada', name: 'ada' },
    ]);
    expect([...new Set(model.parts.map((p) => p.owner))]).toEqual([0, 1, 2]);
  });

  it('are refused beyond a million sheets and triangles, before they fill the memory', () => {
    const positions = new Float64Array(1_200_000).map((_, i) => i % 7);
    const mesh = { positions, indices: Uint32Array.from({ length: 300_000 }, (_, i) => i) };
    const files = { photometry: new Map(), meshes: new Map([['big.glb', mesh]]) };
    const solids = Array.from(
      { length: 20_000 },
      (_, i): Solid => ({ id: `m-${i}`, shape: 'mesh', ...at, file: 'big.glb' }),
    );
    expect(() => compileScene({ keyfall: 1, title: '', solids }, files)).toThrow(
      /^solids\[\d+\] \(m-\d+\): found more than 1000000 sheets and triangles up to here; expected fewer windows/,
    );
  });
});

describe('vehicles', () => {
  const vehicle = (more: object): Solid =>
    ({
      id: 'v',
      shape: 'vehicle',
      position_m: [0, 0, 0],
      material: 'gloss-red',
      size_m: [6, 3, 2],
      ...more,
    }) as Solid;

  /** Names of what the parts are made of, most frequent first. */
  function substances(solid: Solid): Record<string, number> {
    const model = compileScene(opened({ keyfall: 1, title: '', solids: [solid] }), NO_FILES);
    const counts: Record<string, number> = {};
    for (const { substance } of model.parts) {
      const name = (substance.kind === 'pane' ? model.panes : model.surfaces)[substance.index]!.id;
      counts[name] = (counts[name] ?? 0) + 1;
    }
    return counts;
  }

  it('without an inside are of one material all over', () => {
    // Four walls, a roof, its two rounded edges and a floor.
    expect(substances(vehicle({}))).toEqual({ 'gloss-red': 8 });
  });

  it('with one have a second shell, floor and reveals of the inner material', () => {
    // Outside: walls, roof, two edges. Inside: the same and the floor.
    expect(substances(vehicle({ inside: 'matte-white' }))).toEqual({ 'gloss-red': 7, 'matte-white': 8 });
  });

  it('have in each glazed window the pane of its row, and none in the others', () => {
    const row = { count: 2, first_m: 1, pitch_m: 2, width_m: 1, sill_m: 1, head_m: 2 };
    const counts = substances(
      vehicle({
        inside: 'matte-white',
        windows: [
          { side: 'right', ...row, pane: 'clear-glass' },
          { side: 'left', ...row },
          { side: 'front', count: 1, first_m: 0.5, width_m: 1, sill_m: 1, head_m: 2, pane: 'tinted-glass' },
        ],
        doors: [{ side: 'back', count: 1, first_m: 0.5, width_m: 1, head_m: 2, open: true }],
      }),
    );
    // A window is lined on four sides and a door on three: 5 · 4 + 3 reveals.
    expect(counts).toEqual({ 'gloss-red': 7, 'matte-white': 8 + 23, 'clear-glass': 2, 'tinted-glass': 1 });
  });

  it('let light through a window as its pane does, and not through the wall beside it', () => {
    const scene = openAir(
      { position_m: [2, 1.5, 5], aim_m: [2, 1.5, 0] },
      { position_m: [2, 1.5, 0], facing: [0, 0, 1] },
    );
    scene.solids = [
      vehicle({
        windows: [
          { side: 'right', count: 1, first_m: 0.5, width_m: 1, sill_m: 1, head_m: 2, pane: 'tinted-glass' },
        ],
      }),
    ];
    // Derived: 2000 cd at 5 m through a pane that passes 0.35 straight on.
    close(reading_lx(scene), (2000 / 25) * 0.35, POINT_FACE);
    scene.lamps![0]!.position_m = [-2, 1.5, 5];
    scene.lamps![0]!.aim_m = [-2, 1.5, 0];
    scene.marks![0]!.position_m = [-2, 1.5, 0];
    expect(reading_lx(scene)).toBe(0);
  });
});

describe('figures', () => {
  function materialsOf(figure: object): string[] {
    const model = compileScene(
      opened({ keyfall: 1, title: '', figures: [{ id: 'f', position_m: [0, 0, 0], ...figure }] }),
      NO_FILES,
    );
    return model.parts.map((p) => model.surfaces[p.substance.index]!.id);
  }

  it('wear what they are given', () => {
    const worn = materialsOf({ skin: 'skin-deep', upper: 'wool-red', lower: 'denim-blue' });
    expect(new Set(worn)).toEqual(new Set(['skin-deep', 'wool-red', 'denim-blue']));
    // Head, neck and two hands are bare.
    expect(worn.filter((name) => name === 'skin-deep')).toHaveLength(4);
  });

  it('and something where nothing is said', () => {
    expect(new Set(materialsOf({}))).toEqual(new Set(['skin-mid', 'wool-grey', 'wool-dark']));
  });
});

describe('lamp frames', () => {
  function frame(aim_m: [number, number, number], roll_deg?: number) {
    const lamp = {
      position_m: [0, 5, 0] as [number, number, number],
      aim_m,
      ...(roll_deg === undefined ? {} : { roll_deg }),
    };
    return compileScene(openAir(lamp, {}), NO_FILES).lamps[0]!.frame;
  }
  const rounded = (v: readonly number[]) => v.map((x) => Math.round(x * 1e9) / 1e9 + 0);

  it('aimed straight down: right is +x, top is −z', () => {
    const { a, r, t } = frame([0, 0, 0]);
    expect([a, r, t].map(rounded)).toEqual([
      [0, -1, 0],
      [1, 0, 0],
      [0, 0, -1],
    ]);
  });

  it('aimed level along −z, as a camera looks: right is +x, top is up', () => {
    const { a, r, t } = frame([0, 5, -3]);
    expect([a, r, t].map(rounded)).toEqual([
      [0, 0, -1],
      [1, 0, 0],
      [0, 1, 0],
    ]);
  });

  it('rolled by 90: clockwise from behind, so that the top goes to the right', () => {
    const { r, t } = frame([0, 5, -3], 90);
    expect([r, t].map(rounded)).toEqual([
      [0, -1, 0],
      [1, 0, 0],
    ]);
  });

  it('take the sizes of a rectangle along right and top', () => {
    const scene = openAir({}, {});
    scene.heads!.plain!.face = { shape: 'rectangle', size_m: [0.6, 0.3] };
    expect(compileScene(scene, NO_FILES).lamps[0]!.face).toEqual({
      shape: 'rectangle',
      halfSize_m: [0.3, 0.15],
    });
    scene.heads!.plain!.face = { shape: 'octagon', diameter_m: 1.2 };
    expect(compileScene(scene, NO_FILES).lamps[0]!.face).toEqual({ shape: 'octagon', apothem_m: 0.6 });
  });

  // Own files with a formula: the head points down from 3 m, the meter lies 60° off its axis and faces it, at 6 m.
  it.each([
    [
      'bilateral-C-h0-180.ies',
      'I = 1000 cos γ (1 + 0.5 cos C)',
      { '+x': 750, '-x': 250, '+z': 500, '-z': 500 },
    ],
    [
      'bilateral-C-h90-270.ies',
      'I = 1000 cos γ (1 + 0.5 sin C)',
      { '+x': 500, '-x': 500, '+z': 250, '-z': 750 },
    ],
  ])('turn the table of %s, %s, as the convention says', async (file, _, candela) => {
    const off = 3 * Math.tan(Math.PI / 3);
    for (const [direction, I] of Object.entries(candela)) {
      const side = direction.startsWith('+') ? off : -off;
      const position_m: [number, number, number] = direction.endsWith('x') ? [side, 0, 0] : [0, 0, side];
      const { scene, model } = await withFiles(
        fileScene(file, { position_m: [0, 3, 0], aim_m: [0, 0, 0] }, { position_m, facing: 'lamp:key' }),
      );
      close(reading_lx(scene, model), I / 36, TABLE_BEND);
    }
  });
});

function fileScene(file: string, lamp: object, mark: object, more: object = {}): SceneDocument {
  const scene = openAir(lamp, mark);
  scene.heads!.plain!.photometry = { kind: 'file', file, ...more };
  return scene;
}

describe('photometry', () => {
  const square = {
    position_m: [0, 1, 0] as [number, number, number],
    facing: [0, 0, 1] as [number, number, number],
  };
  const ahead = {
    position_m: [0, 1, 4] as [number, number, number],
    aim_m: [0, 1, 0] as [number, number, number],
  };

  it.each<[Head['photometry'], number]>([
    [{ kind: 'beam', peak_cd: 1600, beam_deg: 40, field_deg: 70 }, 100],
    [{ kind: 'metered', illuminance_lx: 100, distance_m: 4, beam_deg: 40, field_deg: 70 }, 100],
    [{ kind: 'metered', illuminance_lx: 400, distance_m: 2, beam_deg: 40, field_deg: 70 }, 100],
    // A Lambertian face of Φ lumens has Φ/π candela on its axis.
    [{ kind: 'diffuse', flux_lm: 1600 * Math.PI }, 100],
  ])('%j reads %d lx at 4 m', (photometry, expected_lx) => {
    const scene = openAir(ahead, square);
    scene.heads!.plain!.photometry = photometry;
    close(reading_lx(scene), expected_lx, POINT_FACE);
  });

  it('lumens: twice the flux is twice the light', () => {
    const scene = openAir(ahead, square);
    const at = (flux_lm: number) => {
      scene.heads!.plain!.photometry = { kind: 'lumens', flux_lm, beam_deg: 40, field_deg: 70 };
      return reading_lx(scene);
    };
    close(at(2000), 2 * at(1000), IDENTITY);
  });

  it('a file beside the scene reads its peak: 1000 cd of a Lambertian table at 2 m', async () => {
    const lamp = { position_m: [0, 1, 2], aim_m: [0, 1, 0] };
    const { scene, model } = await withFiles(fileScene('lambert-C-h0.ies', lamp, square));
    close(reading_lx(scene, model), 250, TABLE_BEND);
  });

  it('a file inside the document reads the same, and needs none beside', async () => {
    const text = readFileSync(
      new URL('../../fixtures/photometry/synthetic/lambert-C-h0.ies', import.meta.url),
      'latin1',
    );
    const scene = fileScene('not-there.ies', { position_m: [0, 1, 2], aim_m: [0, 1, 0] }, square, { text });
    const { files } = await readSceneFiles(scene, () => Promise.reject(new Error('no file may be read')));
    close(reading_lx(scene, compileScene(scene, files)), 250, TABLE_BEND);
  });

  // published in the file itself: its own TILT=INCLUDE block, factors 1, 0.9 and 0.94 at 0, 45 and 90 degrees.
  it.each([
    ['down', [0, -1, 0], 1],
    ['down by 45°', [0, -1, -1], 0.9],
    ['level', [0, 0, -1], 0.94],
  ])('a lamp that minds how it hangs is dimmer when aimed %s', async (_, [x, y, z], factor) => {
    const aim_m = [x! * 4, 5 + y! * 4, z! * 4] as [number, number, number];
    const { scene, model } = await withFiles(
      fileScene(
        'tilt-include-C.ies',
        { position_m: [0, 5, 0], aim_m },
        { position_m: aim_m, facing: 'lamp:key' },
      ),
    );
    const d2 = 16 * (y! ** 2 + z! ** 2);
    close(reading_lx(scene, model), (1000 / d2) * factor, TABLE_BEND);
    expect(model.lamps[0]!.gain).toBe(factor);
  });

  it.each<[Head['photometry'], number]>([
    [{ kind: 'metered', illuminance_lx: 100, distance_m: 4, beam_deg: 40, field_deg: 70 }, 1 / 3],
    [{ kind: 'beam', peak_cd: 1600, beam_deg: 40, field_deg: 70 }, 2 / 3],
    [{ kind: 'lumens', flux_lm: 1600, beam_deg: 40, field_deg: 70 }, 1],
  ])('%j is uncertain by %d stop', (photometry, stops) => {
    // common practice, no source
    const scene = openAir(ahead, square);
    scene.heads!.plain!.photometry = photometry;
    const report = meterScene(scene, compileScene(scene, NO_FILES));
    expect(report.marks[0]!.uncertainty.input_stops).toBeCloseTo(stops, 12);
  });

  it('and a spectrum that are no lamp together are told by the head', () => {
    const scene = openAir(ahead, square);
    scene.heads!.plain!.spectrum = { kind: 'table', wavelength_nm: [200, 300], value: [1, 1] };
    expect(() => compileScene(scene, NO_FILES)).toThrow(SceneError);
    expect(() => compileScene(scene, NO_FILES)).toThrow(
      'heads.plain: found lamp spectrum has no visible light between 380 and 780 nm; check its values; ' +
        'expected figures that a lamp can have',
    );
  });
});

describe('level, switch and filters', () => {
  const base = reading_lx(openAir({}, {}));

  it.each([0, 0.25, 0.5, 1])('level %d gives that share', (level) => {
    expect(reading_lx(openAir({ level }, {}))).toBeCloseTo(level * base, 9);
  });

  it('off is dark, whatever the level', () => {
    expect(reading_lx(openAir({ on: false, level: 1 }, {}))).toBe(0);
  });

  it('neutral filters and nets take their stops, and stack', () => {
    // Derived: ND 0.3, 0.6 and 0.9 take 1, 2 and 3 stops by definition of the library's entries; nets ½ and 1.
    for (const [filters, stops] of [
      [['nd-03'], 1],
      [['nd-03', 'nd-06'], 3],
      [['single-net', 'double-net', 'nd-09'], 4.5],
      [['scrim-single', 'scrim-single'], 1],
    ] as const) {
      const scene = openAir({ filters: [...filters] }, {});
      close(reading_lx(scene), base / 2 ** stops, IDENTITY);
      expect(compileScene(scene, NO_FILES).lamps[0]!.filterLoss_stops).toBeCloseTo(stops, 12);
    }
  });

  it('coloured filters take what the product of their transmissions takes of the lamp’s own light', () => {
    const wavelength_nm = [400, 520, 640];
    const transmittance = [0.1, 0.8, 0.2];
    const own: SceneDocument['filters'] = {
      measured: { kind: 'table', wavelength_nm, transmittance },
      swatch: { kind: 'conversion', shift_mired: 60, transmission: 0.7 },
    };
    const names = ['full-cto', 'half-ctb', 'measured', 'swatch', 'nd-03'];
    const scene = openAir({ filters: names }, {}, { filters: own });
    // Derived: ∫S·τ₁·τ₂·τ₃·τ₄·V / ∫S·V on the core's grid, and one stop of neutral density.
    const S = lampSpectrum({ kind: 'planck', cct_K: 3200 }, SPECTRUM_TABLES);
    const taus = [
      conversionGel(159),
      conversionGel(-78),
      resampled(wavelength_nm, transmittance, 'held'),
      conversionGelOfTransmission(60, 0.7),
    ];
    let passed = 0;
    let whole = 0;
    for (let i = 0; i < S.length; i++) {
      const SV = S[i]! * Y_BAR[i]!;
      whole += SV;
      passed += taus.reduce((light, tau) => light * tau[i]!, SV);
    }
    const share = passed / whole / 2;
    close(reading_lx(scene), base * share, IDENTITY);
    expect(compileScene(scene, NO_FILES).lamps[0]!.filterLoss_stops).toBeCloseTo(-Math.log2(share), 12);
  });

  it('come out the same in any order', () => {
    const forth = compileScene(openAir({ filters: ['full-cto', 'nd-03', 'quarter-ctb'] }, {}), NO_FILES)
      .lamps[0]!;
    const back = compileScene(openAir({ filters: ['quarter-ctb', 'nd-03', 'full-cto'] }, {}), NO_FILES)
      .lamps[0]!;
    close(forth.gain, back.gain, IDENTITY);
    for (const i of [0, 1, 2] as const) close(forth.colour_XYZ[i], back.colour_XYZ[i], IDENTITY);
  });

  it('orange makes light warmer and blue colder', () => {
    const cct = (filters: string[]) => {
      const scene = openAir({ filters }, {});
      return meterScene(scene, compileScene(scene, NO_FILES)).marks[0]!.cct_K!;
    };
    expect(cct([])).toBeCloseTo(3200, 3);
    expect(cct(['full-cto'])).toBeLessThan(2300);
    expect(cct(['full-ctb'])).toBeGreaterThan(5000);
  });

  it('that let nothing through are dark, and not an error', () => {
    const black = { kind: 'table' as const, wavelength_nm: [400, 700], transmittance: [0, 0] };
    const scene = openAir({ filters: ['black'] }, {}, { filters: { black } });
    expect(reading_lx(scene)).toBe(0);
    expect(meterScene(scene, compileScene(scene, NO_FILES)).marks[0]!.stops).toBe(Number.NEGATIVE_INFINITY);
  });
});

describe('haze and sky', () => {
  it('haze takes e^(−3.912 d/V), Koschmieder’s law at 2 %', () => {
    const clear = openAir({ position_m: [0, 1, 40], aim_m: [0, 1, 0] }, { position_m: [0, 1, 0] });
    const hazy = { ...clear, haze: { visibility_m: 200 } };
    close(reading_lx(hazy) / reading_lx(clear), Math.exp((-Math.log(50) * 40) / 200), 1e-9);
    expect(compileScene(hazy, NO_FILES).haze).toEqual({
      extinction_per_m: Math.log(50) / 200,
      albedo: 0.95,
      anisotropy: 0.8,
      regions: null,
    });
    expect(compileScene(clear, NO_FILES).haze).toBeNull();
  });

  it('an open, level receptor reads the sky’s illuminance', () => {
    const scene = openAir({ on: false }, { facing: [0, 1, 0], receptor: 'flat' });
    scene.site = { sky: { illuminance_lx: 0.3 } };
    const [mark] = meterScene(scene, compileScene(scene, NO_FILES)).marks;
    expect(mark!.sky_lx).toBe(mark!.illuminance_lx);
    // Within the error that the reading itself states.
    const stops = Math.abs(Math.log2(mark!.illuminance_lx / 0.3));
    expect(stops).toBeLessThanOrEqual(mark!.uncertainty.numerical_stops);
    expect(mark!.uncertainty.numerical_stops).toBeLessThanOrEqual(0.02);
  });

  it('the sky has the colour that is given, 4100 K where none is', () => {
    const scene = openAir({ on: false }, { facing: [0, 1, 0] });
    for (const [sky, kelvin] of [
      [{ illuminance_lx: 1 }, 4100],
      [{ illuminance_lx: 1, cct_K: 2400 }, 2400],
    ] as const) {
      scene.site = { sky };
      expect(meterScene(scene, compileScene(scene, NO_FILES)).marks[0]!.cct_K).toBeCloseTo(kelvin, 3);
    }
  });
});

describe('setups', () => {
  it('change what is read', () => {
    const base = opened({
      ...openAir({}, {}),
      haze: { visibility_m: 100 },
      setups: [
        { id: 'off', changes: { key: { on: false } } },
        { id: 'half', changes: { key: { level: 0.5 } } },
        { id: 'filtered', changes: { key: { filters: ['nd-06'] } } },
        { id: 'stronger', changes: { plain: { photometry: { peak_cd: 8000 } } } },
        { id: 'thick', changes: { haze: { visibility_m: 50 } } },
        { id: 'turned', changes: { face: { facing: [0, 0, -1] } } },
      ],
    });
    const base_lx = reading_lx(base);
    const ratio = (index: number) => reading_lx(applySetup(base, base.setups![index]!)) / base_lx;
    expect(ratio(0)).toBe(0);
    expect(ratio(1)).toBeCloseTo(0.5, 12);
    expect(ratio(2)).toBeCloseTo(0.25, 12);
    expect(ratio(3)).toBeCloseTo(4, 12);
    // Derived: twice the extinction over 3.99 m.
    expect(ratio(4)).toBeCloseTo(Math.exp((-Math.log(50) * 3.99) / 100), 8);
    expect(ratio(5)).toBe(0);
  });
});

describe('compiling again with a memo', () => {
  const scene = opened({
    ...smallScene(),
    solids: [
      ...smallScene().solids!,
      {
        id: 'flag',
        shape: 'box',
        position_m: [0.1, 1, 2],
        material: 'black-cloth',
        size_m: [0.2, 0.05, 0.05],
      },
    ],
  });
  const moved = {
    ...scene,
    lamps: [{ ...scene.lamps![0]!, position_m: [0.3, 1.2, 4] as [number, number, number], level: 0.7 }],
  };
  const marks = (document: SceneDocument, model: LightModel) => meterScene(document, model).marks;

  it('keeps bodies and heads when a lamp is dragged, and reads what a fresh compilation reads', () => {
    const memo = newCompileMemo();
    const first = compileScene(scene, NO_FILES, LIBRARY, memo);
    const second = compileScene(moved, NO_FILES, LIBRARY, memo);
    expect(second.geometry).toBe(first.geometry);
    expect(second.lamps[0]!.distribution).toBe(first.lamps[0]!.distribution);
    expect(marks(moved, second)).toEqual(marks(moved, compileScene(moved, NO_FILES)));
    const third = compileScene(scene, NO_FILES, LIBRARY, memo);
    expect(marks(scene, third)).toEqual(marks(scene, first));
  });

  it.each<[string, Partial<SceneDocument>]>([
    ['a solid moves', { solids: scene.solids!.map((s) => ({ ...s, position_m: [0, 1, 1] }) as Solid) }],
    ['a figure comes in', { figures: [{ id: 'ada', position_m: [0, 0, 2] }] }],
    ['a material is redefined', { materials: { 'grey-card': { reflectance: 0.9 } } }],
  ])('builds bodies anew when %s', (_, change) => {
    const memo = newCompileMemo();
    const first = compileScene(scene, NO_FILES, LIBRARY, memo);
    const changed = opened({ ...scene, ...change });
    const second = compileScene(changed, NO_FILES, LIBRARY, memo);
    expect(second.geometry).not.toBe(first.geometry);
    expect(second.surfaces).toEqual(compileScene(changed, NO_FILES).surfaces);
    expect(marks(changed, second)).toEqual(marks(changed, compileScene(changed, NO_FILES)));
  });

  it('makes a head anew when its photometry, its spectrum or the files change', async () => {
    const memo = newCompileMemo();
    const first = compileScene(scene, NO_FILES, LIBRARY, memo);
    const changed = structuredClone(scene);
    changed.heads!.plain!.photometry = { kind: 'diffuse', flux_lm: 500 };
    changed.heads!.plain!.spectrum = { kind: 'planck', cct_K: 2700 };
    const second = compileScene(changed, NO_FILES, LIBRARY, memo);
    expect(second.lamps[0]!.distribution).not.toBe(first.lamps[0]!.distribution);
    expect(marks(changed, second)).toEqual(marks(changed, compileScene(changed, NO_FILES)));

    // The same name, other candela: a file that was replaced.
    const text = (candela: number) =>
      `IESNA:LM-63-2002\nTILT=NONE\n1 -1 1 2 1 1 2 0 0 0\n1 1 100\n0 90\n0\n${candela} ${candela}\n`;
    const filed = (candela: number) => fileScene('a.ies', {}, {}, { text: text(candela) });
    const read = async (candela: number) => {
      const { files } = await readSceneFiles(filed(candela), () => Promise.reject(new Error('none')));
      return reading_lx(filed(candela), compileScene(filed(candela), files, LIBRARY, memo));
    };
    close(await read(2000), 2 * (await read(1000)), IDENTITY);
  });
});
