import type { ParseArgsConfig } from 'node:util';

/** Where a command writes: results on `out`, progress and problems on `err`. */
export interface Streams {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
}

export interface OptionValues {
  readonly [name: string]: string | boolean | readonly string[] | undefined;
}

/** One command of the command line. Adding one: a file in `commands/` and its line in `main.ts`. */
export interface CommandLineCommand {
  readonly name: string;
  readonly answers: string;
  /** Options beside the common ones, as `node:util` parses them, each with its help. */
  readonly options: Readonly<Record<string, OptionHelp>>;
  /** Returns the exit code. */
  readonly run: (scenePath: string, values: OptionValues, streams: Streams) => Promise<number>;
}

export interface OptionHelp {
  readonly type: NonNullable<ParseArgsConfig['options']>[string]['type'];
  /** One-letter form, such as `o` for `-o`. */
  readonly short?: string;
  /** May be given again and again; its values come as a list. */
  readonly multiple?: true;
  /** Word for the value in the help, for options that take one. */
  readonly value?: string;
  readonly help: string;
}

export const SETUP_OPTION = { type: 'string', value: 'ID', help: 'the scene as this setup has it' } as const;
export const CAMERA_OPTION = {
  type: 'string',
  value: 'ID',
  help: 'expose for this camera (the first if left out)',
} as const;
export const JSON_OPTION = {
  type: 'boolean',
  help: 'one JSON object on standard output and nothing else',
} as const;
