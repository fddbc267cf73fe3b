import type { GlintRun, GlintsAlongPath } from '../scene/mirror/along-path.ts';
import { PLANNING_AID } from './cautions.ts';
import { signed } from './signed-text.ts';
import { metresText, tapeText } from './tape-text.ts';

/** When along a move lamps burn in frame, as sentences ready to print. */
export interface GlintRunSheet {
  readonly heading: string;
  readonly verdict: string;
  readonly lines: readonly string[];
  readonly footer: readonly string[];
}

export function glintRunSheet(found: GlintsAlongPath, nameOf: (id: string) => string): GlintRunSheet {
  const { runs, moves, from_s, to_s } = found;
  return {
    heading:
      `${found.name}: ${moves.kind} ${nameOf(moves.id)}, ${metresText(found.length_m)} from ${seconds(from_s)} ` +
      `to ${seconds(to_s)}, as camera ${found.camera} sees it`,
    verdict:
      runs.length === 0
        ? 'No lamp mirrors white in frame anywhere along this move.'
        : `Lamps mirror white in frame on ${metresText(burning_m(found))} of it.`,
    lines: runs.map((run) => runText(run, found, nameOf)),
    footer: [
      'Metres are along the move, as a tape laid from its first point reads them; times to 0.02 s. The ' +
        `${moves.kind} keeps ${moves.kind === 'camera' ? 'looking at its look point' : 'its aim'}; all else stands still.`,
      'White a little before the lamp itself shows is the fringe that the finish gives its image.',
      PLANNING_AID,
    ],
  };
}

function runText(run: GlintRun, { from_s, to_s }: GlintsAlongPath, nameOf: (id: string) => string): string {
  const { lamp, solid, image, peak_stops } = run;
  const whole = run.from_s === from_s && run.to_s === to_s;
  const when = whole
    ? 'all the way'
    : `from ${tapeText(run.from_m)} to ${tapeText(run.to_m)}, ${seconds(run.from_s)} to ${seconds(run.to_s)}`;
  const middle =
    image === null
      ? 'the middle of the lamp never shows'
      : `the middle of the lamp shows from ${metresText(image.from_m)} to ${metresText(image.to_m)}`;
  return `${nameOf(lamp)} in ${nameOf(solid)}: white ${when}; ${middle}; ${signed(peak_stops, 1)} stops at most.`;
}

/** Of the whole move, by however many glints. */
function burning_m({ runs }: GlintsAlongPath): number {
  let end = 0;
  let sum = 0;
  for (const { from_m, to_m } of [...runs].sort((a, b) => a.from_m - b.from_m)) {
    sum += Math.max(0, to_m - Math.max(from_m, end));
    end = Math.max(end, to_m);
  }
  return sum;
}

function seconds(t_s: number): string {
  return `${Number(t_s.toFixed(2))} s`;
}
