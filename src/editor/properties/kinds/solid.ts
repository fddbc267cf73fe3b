import { SolidFacts } from '../costs/solid-facts.tsx';
import type { Field, FigureField, KindTable, Variant, VectorField } from '../field.ts';
import { length, materialOf, NAME, POSITION, TURN } from './shared-fields.ts';

const size = (...parts: string[]): VectorField => ({
  as: 'vector',
  path: ['size_m'],
  label: 'Size',
  quantity: 'length',
  step: 0.05,
  parts,
});
const MADE_OF = materialOf('material', 'Made of');
const PANE: Field = { as: 'reference', path: ['pane'], label: 'Pane', to: 'panes' };

const count: FigureField = { as: 'figure', path: ['count'], label: 'How many', quantity: 'number', step: 1 };
const run: readonly Field[] = [
  {
    as: 'choice',
    path: ['side'],
    label: 'Side',
    words: { right: 'Right', left: 'Left', front: 'Front', back: 'Back' },
  },
  count,
  length('first_m', 'First at', {
    help: 'To the near edge of the first: from the front end on a long side, from the right side on an end.',
  }),
  length('pitch_m', 'Then every', { absent: 'only one', help: 'From edge to edge of neighbours.' }),
  length('width_m', 'Wide'),
  length('head_m', 'Head', { help: 'Upper edge over the floor.' }),
];
const WINDOW = {
  side: 'right',
  count: 4,
  first_m: 1,
  pitch_m: 2,
  width_m: 1.2,
  head_m: 2,
  sill_m: 1,
  pane: 'clear-glass',
};
const DOOR = { side: 'right', count: 1, first_m: 0.5, width_m: 0.9, head_m: 2, open: true };
const OPENING = { left_m: 0.5, bottom_m: 0, width_m: 1, height_m: 2 };

const made = { material: 'concrete' };
const variants: Readonly<Record<string, Variant>> = {
  box: {
    words: 'Box',
    start: { ...made, size_m: [1, 1, 1] },
    fields: [size('along x', 'high', 'along z'), MADE_OF],
  },
  cylinder: {
    words: 'Cylinder',
    start: { ...made, radius_m: 0.2, height_m: 1 },
    fields: [length('radius_m', 'Radius'), length('height_m', 'High'), MADE_OF],
  },
  sphere: {
    words: 'Sphere',
    start: { ...made, radius_m: 0.2 },
    fields: [length('radius_m', 'Radius'), MADE_OF],
  },
  capsule: {
    words: 'Capsule',
    start: { ...made, radius_m: 0.2, length_m: 1 },
    fields: [
      length('radius_m', 'Radius'),
      length('length_m', 'Long', { help: 'Between the middles of its round ends.' }),
      MADE_OF,
    ],
  },
  panel: {
    words: 'Panel',
    start: { ...made, size_m: [2, 2] },
    fields: [
      size('wide', 'high'),
      MADE_OF,
      {
        as: 'list',
        path: ['openings'],
        label: 'Openings',
        one: 'Opening',
        next: (last) => last ?? OPENING,
        help: 'Holes, counted from the lower left corner as seen from the front.',
        fields: [
          length('left_m', 'From left'),
          length('bottom_m', 'From below'),
          length('width_m', 'Wide'),
          length('height_m', 'High'),
        ],
      },
    ],
  },
  pane: {
    words: 'Pane: glass, diffusion or net',
    start: { size_m: [2, 2], pane: 'clear-glass' },
    fields: [size('wide', 'high'), PANE],
  },
  vehicle: {
    words: 'Vehicle',
    start: { ...made, size_m: [10, 3, 2.5] },
    fields: [
      size('long', 'high', 'wide'),
      materialOf('material', 'Outside'),
      materialOf('inside', 'Inside', 'no lining: single sheets'),
      length('wall_m', 'Walls', { step: 0.01, absent: '0.06' }),
      length('roofRadius_m', 'Roof edge', {
        absent: '0.3',
        help: 'Outer radius of the roof’s two long edges; 0 for square ones.',
      }),
      {
        as: 'list',
        path: ['windows'],
        label: 'Windows',
        one: 'Row of windows',
        next: (last) => last ?? WINDOW,
        fields: [
          ...run,
          length('sill_m', 'Sill', { help: 'Lower edge over the floor.' }),
          { ...PANE, as: 'reference', to: 'panes', path: ['pane'], label: 'Pane', absent: 'an open hole' },
        ],
      },
      {
        as: 'list',
        path: ['doors'],
        label: 'Doors',
        one: 'Row of doors',
        next: (last) => last ?? DOOR,
        fields: [...run, { as: 'switch', path: ['open'], label: 'Open', absent: false }],
      },
    ],
  },
  mesh: {
    words: 'Shape from a file',
    comesBy: 'drop a glTF file on the page',
    start: { ...made, file: 'shape.glb' },
    fields: [
      {
        as: 'text',
        path: ['file'],
        label: 'File',
        help: 'glTF, standing beside the scene. Opened together with it.',
      },
      {
        as: 'figure',
        path: ['scale'],
        label: 'Scale',
        quantity: 'number',
        step: 0.1,
        absent: '1',
        help: 'Metres for one unit of the file.',
      },
      MADE_OF,
    ],
  },
};

export const SOLID: KindTable = {
  kind: 'solids',
  word: 'Solid',
  sections: [
    {
      title: 'Shape',
      Facts: SolidFacts,
      fields: [NAME, { as: 'variant', path: [], label: 'Shape', by: 'shape', variants }],
    },
    { title: 'Place', fields: [POSITION, TURN] },
  ],
};
