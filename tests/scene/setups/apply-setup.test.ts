import { describe, expect, it } from 'vitest';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { applySetup } from '../../../src/scene/setups/apply-setup.ts';
import { edited, frozen, fullScene } from '../../support/scenes.ts';

function applied(changes: Record<string, Record<string, unknown>>, scene = fullScene()): SceneDocument {
  return applySetup(frozen(scene), frozen({ id: 's', changes }));
}

describe('a setup', () => {
  it.each([
    ['a lamp', { key: { level: 0.5, on: false } }, { 'lamps.1.level': 0.5, 'lamps.1.on': false }],
    ['a lamp’s filters, replaced whole', { back: { filters: ['nd'] } }, { 'lamps.0.filters': ['nd'] }],
    ['one figure of a stand', { back: { stand: { maxHeight_m: 6 } } }, { 'lamps.0.stand.maxHeight_m': 6 }],
    ['a solid', { quay: { material: 'hull-gloss' } }, { 'solids.0.material': 'hull-gloss' }],
    ['a figure', { ada: { heading_deg: 0 } }, { 'figures.0.heading_deg': 0 }],
    ['a mark', { ground: { facing: 'camera' } }, { 'marks.2.facing': 'camera' }],
    ['a camera', { a: { fNumber: 5.6 } }, { 'cameras.0.fNumber': 5.6 }],
    ['a supply', { gen: { breaker_A: 32 } }, { 'supplies.0.breaker_A': 32 }],
    ['a path', { cross: { of: 'ada' } }, { 'paths.0.of': 'ada' }],
    ['a material', { asphalt: { roughness: 0.9 } }, { 'materials.asphalt.roughness': 0.9 }],
    ['a pane', { net: { scattered: 0.1 } }, { 'panes.net.scattered': 0.1 }],
    ['a filter', { nd: { stops: 2 } }, { 'filters.nd.stops': 2 }],
    ['a head', { big: { photometry: { peak_cd: 1 } } }, { 'heads.big.photometry.peak_cd': 1 }],
    ['the haze', { haze: { visibility_m: 50 } }, { 'haze.visibility_m': 50 }],
    ['the site', { site: { sky: { illuminance_lx: 5 } } }, { 'site.sky.illuminance_lx': 5 }],
    ['the meter constants', { calibration: { dome: 340 } }, { 'calibration.dome': 340 }],
  ])('changes %s and nothing else', (_, changes, expected) => {
    expect(applied(changes)).toEqual(edited(fullScene(), expected));
  });

  it('changes several things at once', () => {
    const scene = applied({ key: { on: false }, back: { on: false }, haze: { visibility_m: 9 } });
    expect(scene.lamps?.map((lamp) => lamp.on)).toEqual([
      false,
      false,
      false,
      undefined,
      undefined,
      undefined,
    ]);
    expect(scene.haze?.visibility_m).toBe(9);
  });

  it('takes a field away with null', () => {
    expect(applied({ back: { supply: null } }).lamps![0]).not.toHaveProperty('supply');
  });

  it('makes a section that the base lacks', () => {
    const { haze: _, ...base } = fullScene();
    expect(applied({ haze: { visibility_m: 80 } }, base as SceneDocument).haze).toEqual({ visibility_m: 80 });
  });

  it('skips what is not there', () => {
    expect(applied({ nobody: { on: false } })).toEqual(fullScene());
  });

  it('leaves the base as it was and shares what it does not change', () => {
    const base = frozen(fullScene());
    const scene = applySetup(base, { id: 's', changes: { key: { on: false } } });
    expect(base).toEqual(fullScene());
    expect(scene.solids).toBe(base.solids);
    expect(scene.materials).toBe(base.materials);
    expect(scene.lamps![0]).toBe(base.lamps![0]);
  });
});
