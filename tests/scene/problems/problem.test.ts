import { describe, expect, it } from 'vitest';
import {
  pathText,
  problemAt,
  problemText,
  SceneError,
  shown,
  valueAt,
} from '../../../src/scene/problems/problem.ts';

describe('problem in words', () => {
  const scene = { lamps: [{ id: 'key', head: 'bgi' }] };
  const problem = problemAt(scene, ['lamps', 0, 'head'], {
    found: '"bgi"',
    expected: 'a head',
    nearest: 'big',
  });

  it('names file, line, path, thing, what was found, what was expected and the nearest', () => {
    expect(problemText({ ...problem, line: 12 }, 'scene.json')).toBe(
      'scene.json:12: lamps[0].head (key): found "bgi"; expected a head; did you mean "big"?',
    );
  });

  it('leaves out what is not known', () => {
    const { nearest: _, thing: __, ...bare } = problem;
    expect(problemText(bare)).toBe('lamps[0].head: found "bgi"; expected a head');
    expect(problemText(bare, 'scene.json')).toBe('scene.json: lamps[0].head: found "bgi"; expected a head');
  });

  it('is the message of the error that carries it, one a line', () => {
    expect(new SceneError([problem, problem]).message.split('\n')).toEqual([
      problemText(problem),
      problemText(problem),
    ]);
  });
});

describe('nothing from a file reaches a terminal as control characters', () => {
  // C0, DEL, C1 (whose U+009B is an escape sequence by itself) and the line separators.
  const hostile = '\u001b[2J\u0007\u007f\u009b31m\u2028\u2029\r\n';
  const control = /[\p{Cc}\u2028\u2029]/u;

  it.each([
    ['a value', [hostile], { found: shown(hostile), expected: 'x' }],
    ['an object', [], { found: shown({ [hostile]: 1 }), expected: 'x' }],
    ['a nested object', [], { found: shown({ [hostile]: {} }), expected: 'x' }],
    ['a list', [], { found: shown([hostile]), expected: 'x' }],
    ['words', [], { found: hostile, expected: hostile, nearest: hostile }],
  ])('%s', (_, at, words) => {
    const raw = { [hostile]: { id: hostile } };
    expect(problemText(problemAt(raw, at, words))).not.toMatch(control);
    expect(problemText(problemAt({ lamps: [{ id: hostile }] }, ['lamps', 0], words))).not.toMatch(control);
  });

  it('shows them as escapes', () => {
    expect(problemAt({}, [], { found: '\u009b', expected: '\u001b' })).toMatchObject({
      found: '\\u009b',
      expected: '\\u001b',
    });
  });
});

describe('shown', () => {
  it.each([
    [undefined, 'nothing'],
    [null, 'null'],
    [1.5, '1.5'],
    [Number.NaN, 'NaN'],
    [Number.POSITIVE_INFINITY, 'Infinity'],
    ['text', '"text"'],
    [true, 'true'],
    [[1, 2], '[1,2]'],
    [Array(7).fill(0), 'a list of 7'],
    [{}, 'an empty object'],
    [{ a: 1 }, '{"a":1}'],
    [{ a: [1] }, 'an object with "a"'],
    [{ a: 1, b: 2, c: 3, d: 4, e: 5 }, 'an object with "a", "b", "c", "d"'],
  ])('%j', (value, text) => expect(shown(value)).toBe(text));

  it('is short, whatever it is shown', () => {
    const long = 'x'.repeat(1e6);
    for (const value of [long, [long], { a: long }, { [long]: {} }])
      expect(shown(value).length).toBeLessThan(90);
  });
});

describe('paths', () => {
  it.each([
    [[], '(document)'],
    [['lamps', 2, 'aim_m', 1], 'lamps[2].aim_m[1]'],
    [['materials', 'Grey Card', 'x'], 'materials."Grey Card".x'],
    [['a.b'], '"a.b"'],
  ])('%j', (path, text) => expect(pathText(path)).toBe(text));

  it('find own values and nothing else', () => {
    const raw = { lamps: [{ id: 'key' }], text: 'abc' };
    expect(valueAt(raw, ['lamps', 0, 'id'])).toBe('key');
    expect(valueAt(raw, ['lamps', 1, 'id'])).toBeUndefined();
    expect(valueAt(raw, ['text', 'length'])).toBeUndefined();
    expect(valueAt(raw, ['constructor'])).toBeUndefined();
    expect(valueAt(raw, ['__proto__', 'toString'])).toBeUndefined();
  });
});
