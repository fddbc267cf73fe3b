import { describe, expect, it } from 'vitest';
import type { CommandLineCommand } from '../../src/cli/command.ts';
import { parseOptions } from '../../src/cli/parse-options.ts';

const COMMAND: CommandLineCommand = {
  name: 'look',
  answers: '',
  options: {
    point: { type: 'string', value: 'X,Y,Z', help: '' },
    json: { type: 'boolean', help: '' },
  },
  run: () => Promise.resolve(0),
};

function parsed(...args: string[]) {
  const { values, positionals } = parseOptions(COMMAND, args);
  return [{ ...values }, positionals];
}

describe('options of a command', () => {
  it('stand before or after the scene', () => {
    expect(parsed('s.json', '--json', '--point', '1,2,3')).toEqual([
      { json: true, point: '1,2,3' },
      ['s.json'],
    ]);
    expect(parsed('--point=1,2,3', 's.json')).toEqual([{ point: '1,2,3' }, ['s.json']]);
  });

  it('may have a value below zero, joined or apart', () => {
    expect(parsed('--point', '-2,1.5,0')).toEqual([{ point: '-2,1.5,0' }, []]);
    expect(parsed('--point', '-.5,0,0')).toEqual([{ point: '-.5,0,0' }, []]);
    expect(parsed('--point=-2,1.5,0')).toEqual([{ point: '-2,1.5,0' }, []]);
  });

  it('know their help, whatever the command', () => expect(parsed('--help')).toEqual([{ help: true }, []]));

  it('end at two dashes', () => expect(parsed('--', '--json')).toEqual([{}, ['--json']]));

  it.each([
    [['--pont', '1,2,3'], 'no option --pont; did you mean --point? (keyfall look --help lists the options)'],
    [['--point'], '--point needs a value (keyfall look --help lists the options)'],
    [['--point', '--json'], '--point needs a value (keyfall look --help lists the options)'],
    [['--json=1'], '--json takes no value, so what is "1"? (keyfall look --help lists the options)'],
    [['-j'], 'no option -j (keyfall look --help lists the options)'],
    [['--no-json'], 'no option --no-json; did you mean --json? (keyfall look --help lists the options)'],
  ])('%j are refused', (args, message) => expect(() => parsed(...args)).toThrow(message));
});
