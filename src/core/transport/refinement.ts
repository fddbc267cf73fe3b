import type { Estimate } from './estimate.ts';
import { error_lx, mean_lx, openShare, refine } from './estimate.ts';
import type { Receptor } from './receptor.ts';

/** What is known of a source's light at a meter after one step of its refinement. */
export interface Step {
  /** Points per replicate. */
  readonly points: number;
  readonly mean_lx: Readonly<Record<Receptor, number>>;
  /** Half-width of the 95 % interval. */
  readonly error_lx: Readonly<Record<Receptor, number>>;
  /** Unblocked share of the source. */
  readonly visible: number;
}

/**
 * A source at a meter, its points doubled step by step, and what each step said. Steps depend on nothing but source, meter and
 * what is between them, so those that are kept are, to the last digit, those that would be made anew.
 */
export interface Refinement {
  readonly estimate: Estimate;
  readonly firstPoints: number;
  readonly steps: Step[];
}

export function newRefinement(estimate: Estimate, firstPoints: number): Refinement {
  return { estimate, firstPoints, steps: [] };
}

/** The step of that number, from 0; made now if no one has gone so far. */
export function stepOf({ estimate, firstPoints, steps }: Refinement, number: number): Step {
  while (steps.length <= number) {
    refine(estimate, firstPoints * 2 ** steps.length);
    steps.push({
      points: estimate.points,
      mean_lx: { flat: mean_lx(estimate, 'flat'), dome: mean_lx(estimate, 'dome') },
      error_lx: { flat: error_lx(estimate, 'flat'), dome: error_lx(estimate, 'dome') },
      visible: openShare(estimate),
    });
  }
  return steps[number]!;
}
