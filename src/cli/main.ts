import { nearestName } from '../scene/problems/nearest-name.ts';
import { problemText, SceneError } from '../scene/problems/problem.ts';
import type { CommandLineCommand, Streams } from './command.ts';
import { balance } from './commands/balance.ts';
import { check } from './commands/check.ts';
import { frame } from './commands/frame.ts';
import { glints } from './commands/glints.ts';
import { lens } from './commands/lens.ts';
import { meter } from './commands/meter.ts';
import { night } from './commands/night.ts';
import { power } from './commands/power.ts';
import { readings } from './commands/readings.ts';
import { rigging } from './commands/rigging.ts';
import { separation } from './commands/separation.ts';
import { spot } from './commands/spot.ts';
import { walk } from './commands/walk.ts';
import { BAD_INPUT, DONE } from './exit.ts';
import { didYouMean, HELP_OPTION, parseOptions } from './parse-options.ts';
import { UsageError } from './usage-error.ts';

const COMMANDS: readonly CommandLineCommand[] = [
  check,
  meter,
  spot,
  frame,
  glints,
  separation,
  balance,
  readings,
  lens,
  night,
  walk,
  power,
  rigging,
];

const STREAMS: Streams = {
  out: (text) => process.stdout.write(`${text}\n`),
  err: (text) => process.stderr.write(`${text}\n`),
};

/** `keyfall <command> SCENE [options]` → exit code. Every expected failure becomes a message and a code, never a trace. */
export async function main(args: readonly string[], streams: Streams = STREAMS): Promise<number> {
  const [name, ...rest] = args;
  if (name === undefined) {
    streams.err(helpText());
    return BAD_INPUT;
  }
  if (name === '--help' || name === '-h' || name === 'help') {
    streams.out(helpText());
    return DONE;
  }
  const command = COMMANDS.find((c) => c.name === name);
  if (!command) {
    const names = COMMANDS.map((c) => c.name);
    const found = `no command "${name.slice(0, 40)}"; there are ${names.join(', ')}`;
    streams.err(`keyfall: ${found}${didYouMean(nearestName(name, names))}`);
    return BAD_INPUT;
  }
  try {
    const { values, positionals } = parseOptions(command, rest);
    if (values.help) {
      streams.out(commandHelp(command));
      return DONE;
    }
    const [scene, ...others] = positionals;
    if (scene === undefined) throw new UsageError(`name a scene file: keyfall ${command.name} SCENE`);
    if (others.length > 0) throw new UsageError(`one scene at a time; what is "${others[0]}"?`);
    return await command.run(scene, values, streams);
  } catch (error) {
    if (error instanceof SceneError) {
      for (const problem of error.problems) streams.err(problemText(problem));
    } else if (error instanceof UsageError) {
      streams.err(`keyfall ${command.name}: ${error.message}`);
    } else {
      throw error;
    }
    return BAD_INPUT;
  }
}

function helpText(): string {
  const commands = COMMANDS.map((c) => `  ${c.name.padEnd(10)}  ${c.answers}`);
  return [
    'keyfall <command> SCENE [options]',
    '',
    ...commands,
    '',
    'keyfall <command> --help lists its options. Exit code 0: done; 1: the answer is no; 2: bad input or usage.',
  ].join('\n');
}

function commandHelp(command: CommandLineCommand): string {
  const described: CommandLineCommand['options'] = { ...command.options, help: HELP_OPTION };
  const rows = Object.entries(described).map(
    ([name, { value, help }]) => [`--${name}${value ? ` ${value}` : ''}`, help] as const,
  );
  const width = Math.max(...rows.map(([option]) => option.length));
  const lines = rows.map(([option, help]) => `  ${option.padEnd(width)}  ${help}`);
  return [`keyfall ${command.name} SCENE: ${command.answers}`, '', ...lines].join('\n');
}
