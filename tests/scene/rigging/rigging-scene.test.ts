import { describe, expect, it } from 'vitest';
import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import { riggingScene } from '../../../src/scene/rigging/rigging-scene.ts';
import { headOf, poweredScene } from '../../support/powered-scenes.ts';

/** The soft box of the caution: 0.64 m² at 3 m, feet on half a metre. */
const SOFT = headOf(undefined, { windArea_m2: 0.64, mass_kg: 6 });
const STAND = { maxHeight_m: 3.5, footRadius_m: 0.5 };
const AT = { position_m: [0, 3, 0], aim_m: [0, 1, 5] };

function screened(lamp: object, more: object = {}, request: object = {}) {
  const scene = poweredScene([['soft', 'soft', { ...AT, ...lamp }]], [], { heads: { soft: SOFT }, ...more });
  const model = compileScene(scene, { photometry: new Map(), meshes: new Map() });
  const report = riggingScene(scene, model, request);
  return { ...report, stand: report.stands[0]! };
}

const WIND = { site: { wind: { speed_m_s: 10 } } };

describe('a stand in the wind', () => {
  it('of 10 m/s: 46 N, 138 N·m, 56 kg in all', () => {
    const { stand } = screened({ stand: STAND }, WIND);
    // derived: ½·1.2·100·1.2·0.64 = 46.08 N; × 3 m = 138.24 N·m; /(9.81·0.25) = 56.37 kg, of which the head is 6
    expect(stand.force_N).toBeCloseTo(46.08, 10);
    expect(stand.moment_Nm).toBeCloseTo(138.24, 10);
    expect(Math.abs(stand.neededBallast_kg! + 6 - 56.37)).toBeLessThan(0.005);
    expect(stand).toMatchObject({ tips: true, fails: true, tooHigh: false });
  });

  it('is held by what it needs and not by a kilogram less', () => {
    // derived: 56.37 kg less 6 of the head and 9 of the stand
    const held = screened({ stand: { ...STAND, mass_kg: 9, ballast_kg: 41.4 } }, WIND).stand;
    expect(held).toMatchObject({ tips: false, fails: false, moreBallast_kg: 0 });
    const less = screened({ stand: { ...STAND, mass_kg: 9, ballast_kg: 40.4 } }, WIND).stand;
    expect(less).toMatchObject({ tips: true, fails: true });
    expect(less.moreBallast_kg).toBeCloseTo(less.neededBallast_kg! - 40.4, 12);
  });

  it('begins to tip at the wind that is told', () => {
    const stand = { ...STAND, ballast_kg: 30 };
    const { tipsAt_m_s } = screened({ stand }).stand;
    expect(screened({ stand }, {}, { wind_m_s: tipsAt_m_s! * 0.999 }).stand.tips).toBe(false);
    expect(screened({ stand }, {}, { wind_m_s: tipsAt_m_s! * 1.001 }).stand.tips).toBe(true);
    // derived: √(2·36·9.81·0.25/(3·1.2·1.2·0.64)) = 7.99 m/s
    expect(tipsAt_m_s).toBeCloseTo(7.992, 3);
  });

  it('is screened against gusts where they are given, or what was asked for', () => {
    const gusty = { site: { wind: { speed_m_s: 6, gust_m_s: 10 } } };
    expect(screened({ stand: STAND }, gusty).wind).toEqual({ speed_m_s: 10, from: 'gusts' });
    expect(screened({ stand: STAND }, WIND).wind).toEqual({ speed_m_s: 10, from: 'steady' });
    expect(screened({ stand: STAND }, gusty, { wind_m_s: 3 }).wind).toEqual({
      speed_m_s: 3,
      from: 'request',
    });
    expect(screened({ stand: STAND }).wind).toEqual({ speed_m_s: null, from: null });
  });

  it('says nothing where nothing is known, and names what is missing', () => {
    expect(screened({ stand: STAND }).stand).toMatchObject({ force_N: null, tips: false, fails: false });
    const bare = screened(
      { stand: { maxHeight_m: 3.5 } },
      { ...WIND, heads: { soft: headOf(undefined) } },
    ).stand;
    expect(bare).toMatchObject({ force_N: null, held_Nm: null, tipsAt_m_s: null, fails: false });
    expect(bare.missing).toEqual([
      'wind area (windArea_m2 of the head)',
      'mass of the head (mass_kg)',
      'reach of the feet (footRadius_m of the stand)',
      'mass of the stand (mass_kg)',
      'ballast (ballast_kg of the stand)',
    ]);
    expect(screened({}, WIND).stand).toMatchObject({ onStand: false, fails: false, missing: ['stand'] });
  });

  it('out of the wind is not blown at', () => {
    const { stand } = screened({ stand: { ...STAND, sheltered: true } }, WIND);
    expect(stand).toMatchObject({
      sheltered: true,
      force_N: null,
      tipsAt_m_s: null,
      fails: false,
      missing: [],
    });
  });
});

describe('a stand that should reach', () => {
  it('fails above its height, not at it', () => {
    expect(screened({ stand: { maxHeight_m: 3 } }).stand).toMatchObject({ tooHigh: false, fails: false });
    expect(screened({ stand: { maxHeight_m: 2.9 } }).stand).toMatchObject({ tooHigh: true, fails: true });
  });

  it('stands on what is modelled below it', () => {
    const quay = {
      id: 'quay',
      shape: 'box',
      position_m: [0, 0.5, 0],
      material: 'concrete',
      size_m: [10, 1, 10],
    };
    expect(screened({ stand: STAND }, { solids: [quay] }).stand.height_m).toBeCloseTo(2, 9);
    expect(screened({ stand: STAND }).stand.height_m).toBe(3);
  });

  it('within a vehicle is out of the wind, unless the document says otherwise', () => {
    const vehicle = {
      id: 'hull',
      shape: 'vehicle',
      position_m: [0, 0, 0],
      material: 'gloss-white',
      size_m: [10, 4, 3],
      wall_m: 0.06,
    };
    const solids = [vehicle];
    expect(screened({ stand: STAND }, { ...WIND, solids }).stand).toMatchObject({
      sheltered: true,
      tips: false,
    });
    expect(screened({ stand: { ...STAND, sheltered: false } }, { ...WIND, solids }).stand).toMatchObject({
      sheltered: false,
      tips: true,
    });
  });
});
