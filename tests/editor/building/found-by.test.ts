import { describe, expect, it } from 'vitest';
import { entryOf } from '../../../src/editor/building/entry-of.ts';
import { foundBy } from '../../../src/editor/building/found-by.ts';
import { searchCatalogue } from '../../../src/editor/building/search-catalogue.ts';
import { catalogue } from '../../../src/scene/building/catalogue.ts';

const lamp = (typed: string) =>
  foundBy(typed, 'Daylight discharge 1.8 kW, flood', ['head', 'light'], '140 000 cd, 50° beam, 5600 K');

it('finds by the beginnings of words, the name first', () => {
  expect(lamp('')).toBe(1);
  expect(lamp('day')).toBe(1);
  expect(lamp('disch')).toBe(0.9);
  expect(lamp('DAY flood')).toBeCloseTo(0.95, 12);
  expect(lamp('light')).toBe(0.6);
  expect(lamp('5600')).toBe(0.2);
  expect(lamp('flood 5600')).toBeCloseTo(0.55, 12);
  expect(lamp('charge')).toBe(0);
  expect(lamp('flood bus')).toBe(0);
  expect(foundBy('cafe', 'Café', [], '')).toBe(1);
  expect(lamp('  …  ')).toBe(1);
});

it('tells entries of the library from other things', () => {
  expect(entryOf('head:led-head-spot')).toEqual({ dictionary: 'heads', name: 'led-head-spot' });
  expect(entryOf('material:gloss-red')).toEqual({ dictionary: 'materials', name: 'gloss-red' });
  expect(entryOf('figure:standing')).toBeNull();
  expect(entryOf('camera')).toBeNull();
});

describe('a search of the catalogue', () => {
  const recipes = catalogue({ keyfall: 1, title: '' });
  const first = (typed: string) => searchCatalogue(recipes, typed)[0]?.recipes[0]?.id;

  it('puts what is called so before what it is said of', () => {
    expect(first('camera')).toBe('camera');
    expect(first('key')).toBe('lamp:key');
    expect(first('light haze')).toBe('haze:light');
    expect(first('half blue')).toBe('filter:half-ctb');
    expect(first('wet')).toBe('solid:wet-ground');
    expect(first('truck')).toBe('solid:box-lorry');
    expect(first('bus')).toBe('solid:bus');
    expect(first('box')).toBe('solid:box');
    expect(first('window')).toBe('vehicle:windows');
    expect(first('zeppelin')).toBeUndefined();
  });

  it('without a word has everything in its own order', () => {
    expect(searchCatalogue(recipes, ' ').flatMap(({ recipes: some }) => some)).toEqual(recipes);
  });
});
