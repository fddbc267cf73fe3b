import type { FigureField, ReferenceField, TextField, VectorField } from '../field.ts';

/** Fields that many kinds of things have. */

export const NAME: TextField = {
  as: 'text',
  path: ['name'],
  label: 'Name',
  absent: 'none',
  help: 'What sheets and screens call it. Without one its short name stands there.',
};

export const POSITION: VectorField = {
  as: 'vector',
  path: ['position_m'],
  label: 'Stands at',
  quantity: 'length',
  step: 0.05,
  parts: ['x', 'y', 'z'],
  help: 'From the scene’s zero: x to the right on the plan, y up, z down the plan.',
};

export const TURN: VectorField = {
  as: 'vector',
  path: ['rotation_deg'],
  label: 'Turned',
  quantity: 'angle',
  step: 1,
  parts: ['tilt', 'heading', 'bank'],
  start: [0, 0, 0],
  help: 'Heading about the upright, then tilt about its own x, then bank about its own z.',
};

export const ROLL: FigureField = {
  as: 'figure',
  path: ['roll_deg'],
  label: 'Roll',
  quantity: 'angle',
  step: 1,
  absent: '0',
  help: 'Clockwise as seen from behind.',
};

export function length(
  path: string,
  label: string,
  more: Partial<Pick<FigureField, 'help' | 'absent' | 'step' | 'slide'>> = {},
): FigureField {
  return { as: 'figure', path: [path], label, quantity: 'length', step: 0.05, ...more };
}

export function materialOf(path: string, label: string, absent?: string): ReferenceField {
  return {
    as: 'reference',
    path: [path],
    label,
    to: 'materials',
    ...(absent === undefined ? {} : { absent }),
  };
}

/** Share of light, 0 to 1 in the document, in percent on the screen. */
export function share(
  path: string,
  label: string,
  more: Partial<Pick<FigureField, 'help' | 'absent'>> = {},
): FigureField {
  return {
    as: 'figure',
    path: [path],
    label,
    quantity: 'percent',
    step: 0.01,
    slide: { from: 0, to: 1 },
    ...more,
  };
}

/** Half, or double, and so on: for figures of which only the ratio means anything to the eye. */
export function kelvin(
  path: string,
  label: string,
  more: Partial<Pick<FigureField, 'help' | 'absent'>> = {},
): FigureField {
  return {
    as: 'figure',
    path: [path],
    label,
    quantity: 'kelvin',
    step: 100,
    slide: { from: 2000, to: 10_000, ratio: true },
    ...more,
  };
}

/** One figure of a thing, by the name of its field. */
export const figure = (
  path: string,
  label: string,
  quantity: FigureField['quantity'],
  step: number,
  more: Partial<FigureField> = {},
): FigureField => ({ as: 'figure', path: [path], label, quantity, step, ...more });
