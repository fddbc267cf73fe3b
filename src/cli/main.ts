import { parseArgs } from 'node:util';
import { problemText, SceneError } from '../scene/problems/problem.ts';
import type { CommandLineCommand, Streams } from './command.ts';
import { check } from './commands/check.ts';
import { meter } from './commands/meter.ts';
import { BAD_INPUT, DONE } from './exit.ts';
import { UsageError } from './usage-error.ts';

const COMMANDS: readonly CommandLineCommand[] = [check, meter];

const STREAMS: Streams = {
  out: (text) => process.stdout.write(`${text}\n`),
  err: (text) => process.stderr.write(`${text}\n`),
};

/** `keyfall <command> SCENE [options]` → exit code. Every expected failure becomes a message and a code, never a trace. */
export async function main(args: readonly string[], streams: Streams = STREAMS): Promise<number> {
  const [name, ...rest] = args;
  if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
    streams.out(helpText());
    return name === undefined ? BAD_INPUT : DONE;
  }
  const command = COMMANDS.find((c) => c.name === name);
  if (!command) {
    streams.err(
      `keyfall: no command "${name.slice(0, 40)}"; there are ${COMMANDS.map((c) => c.name).join(', ')}`,
    );
    return BAD_INPUT;
  }
  try {
    const { values, positionals } = parse(command, rest);
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

function parse(command: CommandLineCommand, args: readonly string[]) {
  const options = Object.fromEntries(
    Object.entries({ ...command.options, help: HELP_OPTION }).map(([key, { type }]) => [key, { type }]),
  );
  try {
    return parseArgs({ args: [...args], options, allowPositionals: true, strict: true });
  } catch (error) {
    throw new UsageError(`${(error as Error).message} (keyfall ${command.name} --help lists the options)`);
  }
}

const HELP_OPTION = { type: 'boolean', help: 'this help' } as const;

function helpText(): string {
  const commands = COMMANDS.map((c) => `  ${c.name.padEnd(8)} ${c.answers}`);
  return [
    'keyfall <command> SCENE [options]',
    '',
    ...commands,
    '',
    'keyfall <command> --help lists its options. Exit code 0: done; 1: the answer is no; 2: bad input or usage.',
  ].join('\n');
}

function commandHelp(command: CommandLineCommand): string {
  const lines = Object.entries({ ...command.options, help: HELP_OPTION } as typeof command.options).map(
    ([name, { value, help }]) => `  ${`--${name}${value ? ` ${value}` : ''}`.padEnd(16)} ${help}`,
  );
  return [`keyfall ${command.name} SCENE: ${command.answers}`, '', ...lines].join('\n');
}
