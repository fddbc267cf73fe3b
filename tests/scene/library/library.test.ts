import { describe, expect, it } from 'vitest';
import { spectrumOfTable } from '../../../src/core/spectra/spectrum-table.ts';
import { headLight } from '../../../src/scene/compile/head-light.ts';
import { filtered } from '../../../src/scene/compile/lamp-light.ts';
import { openRaw } from '../../../src/scene/file/open-scene.ts';
import { entryNamed, LIBRARY } from '../../../src/scene/library/library.ts';
import { camera } from '../../../src/scene/schema/camera.ts';
import { KEBAB_CASE } from '../../../src/scene/schema/primitives.ts';

describe('the library', () => {
  it('is valid: its entries would do as a document’s own', () => {
    const { materials, panes, filters, heads } = LIBRARY;
    expect(openRaw({ keyfall: 1, title: '', materials, panes, filters, heads }).problems).toEqual([]);
  });

  it('names every entry in small letters, and says what it is', () => {
    const { reflectances, ...named } = LIBRARY;
    for (const [name, entry] of Object.values(named).flatMap((entries) => Object.entries(entries))) {
      expect(name).toMatch(KEBAB_CASE);
      expect((entry as { name?: string }).name, name).toBeTruthy();
    }
    for (const name of Object.keys(reflectances)) expect(name).toMatch(KEBAB_CASE);
  });

  it('has sensors that a camera may have', () => {
    for (const { sensor_mm } of Object.values(LIBRARY.sensors))
      expect(camera.shape.sensor_mm.safeParse(sensor_mm).success).toBe(true);
  });

  it('has what figures wear when nothing is said', () => {
    for (const name of ['skin-mid', 'wool-grey', 'wool-dark']) expect(LIBRARY.materials).toHaveProperty(name);
  });

  it.each(Object.keys(LIBRARY.heads))('head %s makes a lamp, through every filter', (name) => {
    const light = headLight(LIBRARY.heads[name]!, undefined);
    expect(light.uncertainty_stops).toBeGreaterThan(0);
    for (const filter of Object.values(LIBRARY.filters)) {
      const { transmission, colour_XYZ } = filtered(light.spectrum, [filter]);
      expect(transmission).toBeGreaterThan(0);
      expect(transmission).toBeLessThanOrEqual(1);
      expect(colour_XYZ.every((v) => Number.isFinite(v) && v > 0)).toBe(true);
    }
  });

  it.each(Object.keys(LIBRARY.reflectances))('reflectance spectrum %s lies between 0 and 1', (name) => {
    const values = spectrumOfTable(LIBRARY.reflectances[name]!, 'held');
    expect(values.every((v) => v >= 0 && v <= 1)).toBe(true);
  });
});

describe('an entry by name', () => {
  const library = { shared: 'library', only: 'library' };
  it('is the document’s own before the library’s, and never an inherited property', () => {
    expect(entryNamed({ shared: 'own' }, library, 'shared')).toBe('own');
    expect(entryNamed({ shared: 'own' }, library, 'only')).toBe('library');
    expect(entryNamed(undefined, library, 'shared')).toBe('library');
    for (const name of ['toString', 'constructor', '__proto__', 'hasOwnProperty'])
      expect(entryNamed({}, library, name)).toBeUndefined();
  });
});
