import { parseArgs } from 'node:util';
import { nearestName } from '../scene/problems/nearest-name.ts';
import type { CommandLineCommand, OptionHelp, OptionValues } from './command.ts';
import { UsageError } from './usage-error.ts';

export const HELP_OPTION = { type: 'boolean', help: 'this help' } as const;

/** Options of a command and what stands beside them. Throws UsageError for what the command does not take. */
export function parseOptions(
  command: CommandLineCommand,
  args: readonly string[],
): { readonly values: OptionValues; readonly positionals: readonly string[] } {
  const known: Readonly<Record<string, OptionHelp>> = { ...command.options, help: HELP_OPTION };
  const options = Object.fromEntries(
    Object.entries(known).map(([name, { type, short, multiple }]) => [
      name,
      { type, ...(short ? { short } : {}), ...(multiple ? { multiple } : {}) },
    ]),
  );
  // Not strict, because a strict parse takes "-2,1.5,0" for an option; the checks below are ours.
  const parsed = parseArgs({ args: [...args], options, allowPositionals: true, strict: false, tokens: true });
  for (const token of parsed.tokens) {
    if (token.kind !== 'option') continue;
    const { rawName, value } = token;
    const fault = (message: string) =>
      new UsageError(`${message} (keyfall ${command.name} --help lists the options)`);
    if (!Object.hasOwn(known, token.name)) {
      const nearest = nearestName(token.name, Object.keys(known));
      throw fault(`no option ${rawName}${didYouMean(nearest && `--${nearest}`)}`);
    }
    const takesValue = known[token.name]!.type === 'string';
    if (!takesValue && value !== undefined) throw fault(`${rawName} takes no value, so what is "${value}"?`);
    const isNextOption = value !== undefined && !token.inlineValue && /^-[^\d.]/.test(value);
    if (takesValue && (value === undefined || isNextOption)) throw fault(`${rawName} needs a value`);
  }
  return parsed;
}

export function didYouMean(nearest: string | undefined): string {
  return nearest ? `; did you mean ${nearest}?` : '';
}
