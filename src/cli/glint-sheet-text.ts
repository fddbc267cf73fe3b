import type { GlintSheet } from '../paperwork/glint-sheet.ts';

/** The glint sheet for a terminal or a sheet of paper on the wall. */
export function glintSheetText({ title, heading, verdict, blocks, footer }: GlintSheet): string {
  return [
    title,
    heading,
    '',
    verdict,
    ...blocks.flatMap(({ heading: name, lines }) => [
      '',
      name,
      ...lines.flatMap(({ text, cures }) => [`• ${text}`, ...cures.map((cure) => `    ${cure}`)]),
    ]),
    '',
    ...footer,
  ].join('\n');
}
