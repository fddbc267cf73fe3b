import type { SceneDocument } from '../schema/document.ts';

/** What a scene still lacks before it tells anything, and why. */
export interface FirstStep {
  /** Of the recipe that supplies it. */
  readonly recipe: string;
  readonly what: string;
  readonly why: string;
}

/** In the order in which a scene is best begun; empty once there are numbers to read. */
export function firstSteps(document: SceneDocument): readonly FirstStep[] {
  const steps: (FirstStep | false)[] = [
    !document.solids?.length && {
      recipe: 'solid:ground',
      what: 'Add the ground',
      why: 'Stands and figures stand on it, and light bounces off it.',
    },
    !document.cameras?.length && {
      recipe: 'camera',
      what: 'Add a camera',
      why: 'Stops are counted from its exposure; without one there are no numbers.',
    },
    !document.figures?.length &&
      !document.marks?.length && {
        recipe: 'figure:standing',
        what: 'Add a figure',
        why: 'It comes with a mark on its face: a mark is where the meter is held.',
      },
    !!document.figures?.length &&
      !document.marks?.length && {
        recipe: 'mark:air',
        what: 'Add a mark',
        why: 'A mark is where the meter is held: numbers are read at marks.',
      },
    !document.lamps?.length && {
      recipe: 'lamp:back',
      what: 'Add the backlight',
      why: 'Night is lit from behind first: it draws edges and makes haze glow.',
    },
  ];
  return steps.filter((step) => step !== false);
}
