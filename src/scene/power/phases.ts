import { assignLoads } from '../../core/electrical/assignment.ts';
import type { LampLoad, Phase } from './lamp-load.ts';

export const PHASES: readonly Phase[] = [1, 2, 3];

/**
 * The phase of every lamp on a three-phase supply: the one that it names, and for the others those that leave the fullest phase
 * as empty as can be. Keyed by the lamp's id.
 */
export function phasesOf(loads: readonly LampLoad[]): Map<string, Phase> {
  const drawing = loads.filter((load) => (load.draw?.load_VA ?? 0) > 0);
  const total_VA = drawing.reduce((sum, load) => sum + load.draw!.load_VA, 0);
  const { circuits } = assignLoads(
    drawing.map(({ draw, phase }) => ({
      load_VA: draw!.load_VA,
      changes: PHASES.map((p) => (phase === null || phase === p ? 0 : null)),
    })),
    drawing.length > 0 ? PHASES.map(() => total_VA) : [],
  );
  return new Map(loads.map((load) => [load.id, load.phase ?? PHASES[circuits[drawing.indexOf(load)] ?? 0]!]));
}
