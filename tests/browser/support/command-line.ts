import { main } from '../../../src/cli/main.ts';

/** What `keyfall …` prints, run from the repository's root; the answer may be "no" (exit code 1). */
export async function keyfall(...args: string[]): Promise<string> {
  const out: string[] = [];
  const err: string[] = [];
  const code = await main(args, { out: (text) => out.push(text), err: (text) => err.push(text) });
  if (code > 1) throw new Error(`keyfall ${args.join(' ')} ended with ${code}: ${err.join('\n')}`);
  return out.join('\n');
}

/** The lines of the readings in `keyfall meter`'s text, each cut into its columns, as far as the page's table has them. */
export function readingLines(text: string): string[][] {
  return linesOf(text).map((columns) => columns.slice(0, -2));
}

/** The same of `keyfall meter --direct`, which has no light of other ways to tell apart. */
export function straightLines(text: string): string[][] {
  return linesOf(text);
}

/** The last two columns of those lines, by mark: what of the reading is bounce, and what is haze. */
export function ofWhichLines(text: string): Map<string, string[]> {
  return new Map(linesOf(text).map((columns) => [columns[0]!, columns.slice(-2)]));
}

function linesOf(text: string): string[][] {
  const lines = text.split('\n');
  const head = lines.findIndex((line) => line.startsWith('Mark '));
  const end = lines.indexOf('', head);
  return lines.slice(head + 1, end).map((line) => line.split(/ {2,}/));
}

/** The blocks "By lamp": for each mark, by the lamp's id (and `sky`), what stands in the column. */
export function lampLines(text: string): Map<string, Map<string, string>> {
  const byMark = new Map<string, Map<string, string>>();
  for (const block of text.split('\n\n')) {
    const [head, ...lines] = block.split('\n').map((line) => line.split(/ {2,}/));
    if (!head?.[0]?.startsWith('By lamp')) continue;
    for (const [mark, ...cells] of lines) {
      const row = byMark.get(mark!) ?? new Map<string, string>();
      for (const [i, cell] of cells.entries()) row.set(head[i + 1]!, cell);
      byMark.set(mark!, row);
    }
  }
  return byMark;
}
