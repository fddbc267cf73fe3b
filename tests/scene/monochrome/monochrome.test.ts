import { describe, expect, it } from 'vitest';
import {
  conversionOf,
  MONOCHROME_NAMES,
  monochromeNamed,
  monochromeWords,
  noiseOf_stops,
  PLAIN,
  weightsOf,
} from '../../../src/scene/monochrome/monochrome.ts';
import { fullScene, linesOf, problemsOf } from '../../support/scenes.ts';

describe('monochrome of the document', () => {
  it('becomes the conversion that it names', () => {
    // derived: weights as they are; a pure red lifted by a stop
    expect(conversionOf({ weights: [0.8, 0.2, 0] })([0.2, 0.03, 0.03])).toBeCloseTo(0.166, 12);
    expect(conversionOf({ hues: { red: 1 } })([1, 0, 0])).toBeCloseTo(2 * 0.2126, 3);
    expect(conversionOf({ filter: 'red' })([1, 0, 0])).toBeGreaterThan(0.7);
    expect(weightsOf({ hues: { red: 1 } })).toBeNull();
  });

  it('can be typed by name or as weights, and says what it takes', () => {
    for (const name of MONOCHROME_NAMES) expect(typeof monochromeNamed(name), name).toBe('object');
    expect(monochromeNamed('luminance')).toBe(PLAIN);
    expect(monochromeNamed('0.8, 0.3, -0.1')).toEqual({ weights: [0.8, 0.3, -0.1] });
    expect(monochromeNamed('sepia')).toContain('luminance, yellow');
    expect(monochromeNamed('1,2')).toContain('three weights');
    expect(monochromeNamed('0.8,0.4,0')).toContain('1.2');
  });

  it('is called by its name', () => {
    expect(monochromeWords(PLAIN)).toBe('plain luminance');
    expect(monochromeWords({ filter: 'red' })).toBe('red filter');
    expect(monochromeWords({ weights: [0.8, 0.3, -0.1] })).toBe('mix 0.8/0.3/−0.1');
    expect(monochromeWords({ hues: { red: 1, blue: -0.5 } })).toBe('by hue: red +1, blue −0.5');
    expect(monochromeWords({ hues: {} })).toBe('by hue, none moved');
  });

  it('costs noise, and more where the white balance lifts a channel', () => {
    // derived: nothing at the display's own white but for the chromatic difference of D65 and CIE daylight of 6504 K
    expect(Math.abs(noiseOf_stops(PLAIN, 6504))).toBeLessThan(0.01);
    expect(noiseOf_stops({ weights: [0, 0, 1] }, 6504)).toBeCloseTo(0.416, 1);
    // Light of 2800 K has little blue: its balance lifts blue, and what leans on blue pays.
    expect(noiseOf_stops({ filter: 'blue' }, 2800)).toBeGreaterThan(
      1 + noiseOf_stops({ filter: 'blue' }, 6504),
    );
    expect(noiseOf_stops({ hues: { red: 2, orange: -2 } }, 6504)).toBeGreaterThan(0.5);
  });

  it('is one of three ways, its weights adding up to 1', () => {
    const at = (monochrome: unknown) =>
      linesOf({ 'cameras.0.monochrome': monochrome }, fullScene()).join('\n');
    expect(problemsOf({ 'cameras.0.monochrome': { filter: 'orange' } })).toEqual([]);
    expect(at({})).toContain('one of "weights", "filter" and "hues"');
    expect(at({ filter: 'red', hues: { red: 1 } })).toContain('one of "weights", "filter" and "hues"');
    expect(at({ weights: [0.8, 0.4, 0] })).toContain('add up to 1');
    expect(at({ filter: 'rad' })).toContain('red');
    expect(at({ hues: { crimson: 1 } })).toContain('crimson');
    expect(at({ hues: { red: 9 } })).toMatch(/hues\.red/);
  });
});
