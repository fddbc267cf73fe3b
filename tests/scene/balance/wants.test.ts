import { describe, expect, it } from 'vitest';
import { parseWants } from '../../../src/scene/balance/wants.ts';
import { edited, opened, smallScene } from '../../support/scenes.ts';

const scene = opened(smallScene());
const parse = (text: string) => parseWants(text, scene);

describe('what is wanted', () => {
  it('is stops of one lamp at a mark, or of all light there', () => {
    expect(parse('face:key=-1')).toEqual([{ mark: 'face', lamp: 'key', stops: -1 }]);
    expect(parse('face=+0.5')).toEqual([{ mark: 'face', lamp: null, stops: 0.5 }]);
    expect(parse(' face : key = 0 , face=2')).toEqual([
      { mark: 'face', lamp: 'key', stops: 0 },
      { mark: 'face', lamp: null, stops: 2 },
    ]);
  });

  it.each([
    ['−1⅓', -4 / 3],
    ['+0⅔', 2 / 3],
    ['⅔', 2 / 3],
    ['-½', -0.5],
    ['.25', 0.25],
    ['-0', 0],
  ])('takes stops as the meter prints them: %s', (text, stops) => {
    expect(parse(`face=${text}`)[0]!.stops).toBeCloseTo(stops, 12);
    expect(Object.is(parse('face=-0')[0]!.stops, 0)).toBe(true);
  });

  it.each([
    ['fase=0', '--want: found no mark "fase"; expected one of face; did you mean "face"?'],
    ['face:kee=0', '--want: found no lamp "kee"; expected one of key; did you mean "key"?'],
    ['face', '--want: found "face"; expected mark:lamp=stops or mark=stops'],
    ['', '--want: found ""; expected mark:lamp=stops'],
    ['face=', '--want: found "face="; expected stops over the camera\'s zero'],
    ['face=.', 'expected stops over'],
    ['face=one', 'expected stops over'],
    ['face=21', 'expected stops over'],
    ['face=1e1', 'expected stops over'],
    ['face=NaN', 'expected stops over'],
    ['face:key:x=1', 'expected mark:lamp=stops'],
    ['face=1=2', 'expected mark:lamp=stops'],
    [':key=1', 'expected mark:lamp=stops'],
    ['face:=1', 'expected mark:lamp=stops'],
    ['face=1,face=2', '--want: found "face=2", wanted twice; expected one figure for each mark and lamp'],
  ])('refuses %s and says what is right', (text, message) => {
    expect(() => parse(text)).toThrow(message);
  });

  it('names every slip at once', () => {
    expect(() => parse('fase=0,face:kee=0,x')).toThrow(/no mark.*\n.*no lamp.*\n.*found "x"/);
  });

  it('refuses a lamp that is off', () => {
    const off = opened(edited(smallScene(), { 'lamps.0.on': false }));
    expect(() => parseWants('face:key=0', off)).toThrow(
      'lamp key is off; expected a lamp that is on: switch it on',
    );
  });

  it('says when there is nothing to want', () => {
    const bare = opened(edited(smallScene(), { marks: [], lamps: [] }));
    expect(() => parseWants('face=0', bare)).toThrow('expected none: the scene has no marks');
  });
});
