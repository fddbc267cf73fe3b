import { describe, expect, it } from 'vitest';
import { MAX_SCENE_BYTES, parseJson } from '../../../src/scene/file/parse-json.ts';
import { problemText } from '../../../src/scene/problems/problem.ts';

function line(text: string): string[] {
  const parsed = parseJson(text);
  return 'problems' in parsed ? parsed.problems.map((p) => problemText(p, 's.json')) : ['parsed'];
}

describe('parsing JSON', () => {
  it('gives what JSON.parse gives', () => {
    const text = '{"a": [1, -2.5e-3, true, false, null, "\\u00e9\\n"], "b": {"__proto__": 1}}';
    expect(parseJson(text)).toEqual({ raw: JSON.parse(text) });
  });

  const SYMBOL =
    'expected a number, text in quotes, true, false, null, {…} or […] (NaN and Infinity are not JSON)';
  const FIELD = 'expected a field name in double quotes (no comma after the last field)';
  it.each([
    ['nothing', '', 's.json: (document): found an empty file; expected a scene, {"keyfall": 1, …}'],
    ['blanks', ' \n\t', 's.json: (document): found an empty file; expected a scene, {"keyfall": 1, …}'],
    ['prose', 'hello', `s.json:1: (document): found "hello" in column 1; ${SYMBOL}`],
    ['a web page', '<html>', `s.json:1: (document): found "<html>" in column 1; ${SYMBOL}`],
    ['NaN', '{\n "a": NaN}', `s.json:2: (document): found "NaN}" in column 7; ${SYMBOL}`],
    ['Infinity', '{"a": -Infinity}', `s.json:1: (document): found "-Infinity}" in column 7; ${SYMBOL}`],
    [
      'a line comment',
      '{"a": 1 // x\n}',
      's.json:1: (document): found "// x" in column 9; expected no comments (use "notes")',
    ],
    [
      'a comment',
      '{/* x */"a": 1}',
      's.json:1: (document): found "/* x */\\"a\\": 1}" in column 2; expected no comments (use "notes")',
    ],
    ['a comma after the last field', '{"a": 1,}', `s.json:1: (document): found "}" in column 9; ${FIELD}`],
    [
      'a comma after the last entry',
      '[1,\n]',
      's.json:2: (document): found "]" in column 1; expected a value (no comma after the last entry)',
    ],
    [
      'no comma',
      '{"a": 1 "b": 2}',
      's.json:1: (document): found "\\"b\\": 2}" in column 9; expected a comma between entries',
    ],
    [
      'no colon',
      '{"a" 1}',
      's.json:1: (document): found "1}" in column 6; expected a colon between name and value',
    ],
    ['single quotes', "{'a': 1}", `s.json:1: (document): found "'a': 1}" in column 2; ${SYMBOL}`],
    ['a bare name', '{a: 1}', `s.json:1: (document): found "a: 1}" in column 2; ${SYMBOL}`],
    [
      'an unclosed object',
      '{"a": 1',
      's.json:1: (document): found the end of the file; expected a closing }',
    ],
    ['an unclosed list', '[1, 2', 's.json:1: (document): found the end of the file; expected a closing ]'],
    ['unclosed text', '{"a": "b', 's.json:1: (document): found "\\"b" in column 7; expected a closing quote'],
    [
      'two values',
      '{} {}',
      's.json:1: (document): found "{}" in column 4; expected nothing more after the scene',
    ],
    [
      'a raw control character',
      '["\u0007"]',
      's.json:1: (document): found "\\"\\u0007\\"]" in column 2; expected text without raw control characters',
    ],
    [
      'a bad escape',
      '["\\x"]',
      's.json:1: (document): found "\\"\\\\x\\"]" in column 2; expected a backslash only before " \\ / b f n r t or u',
    ],
    [
      'a number that stops',
      '{"a": 1.}',
      's.json:1: (document): found "1.}" in column 7; expected digits after the point or the e, as in 1.5',
    ],
    ['a leading plus', '[+1]', `s.json:1: (document): found "+1]" in column 2; ${SYMBOL}`],
  ])('refuses %s and says where', (_, text, expected) => expect(line(text)).toEqual([expected]));

  it('refuses a name twice in one object, however it is spelt, and lists all of them', () => {
    const text = '{"a": 1,\n "b": {"x": 1, "x": 2},\n "\\u0061": 3}';
    const twice = (name: string) =>
      `found the name "${name}" twice in one object; expected each name once (only the last would count)`;
    expect(line(text)).toEqual([`s.json:2: x: ${twice('x')}`, `s.json:3: a: ${twice('a')}`]);
  });

  it('lets a name stand in two objects', () => {
    expect(line('[{"a": 1}, {"a": {"a": [{"a": 2}]}}]')).toEqual(['parsed']);
  });

  it('refuses what is nested deeper than a scene can be, at once', () => {
    for (const open of ['[', '{"a":', '[{"a":'])
      expect(line(open.repeat(100_000))).toEqual([
        's.json:1: (document): found more than 40 brackets inside each other; expected a scene, which needs fewer',
      ]);
  });

  it('refuses brackets that do not match without following them down', () => {
    for (const pair of ['[}', '{]', '{"a":]', '[{"a":}]']) expect(line(pair.repeat(100_000))).toHaveLength(1);
  });

  it('refuses more names and values than a scene can hold', () => {
    expect(line(`[${'{},'.repeat(700_000)}{}]`)).toEqual([
      's.json: (document): found more than 2 million names, values and brackets; expected a scene, which needs fewer',
    ]);
  });

  it('refuses more text than a scene can be', () => {
    expect(line(' '.repeat(MAX_SCENE_BYTES + 1))).toEqual([
      's.json: (document): found 20.0 million characters; ' +
        'expected a scene of at most 20 MB (leave meshes and photometric files beside it)',
    ]);
  });
});
