import { FigureFacts } from '../costs/figure-facts.tsx';
import { MarkFacts } from '../costs/mark-facts.tsx';
import { ReadingFacts } from '../costs/reading-facts.tsx';
import type { Field, KindTable } from '../field.ts';
import { FacingField } from '../fields/facing-field.tsx';
import { length, materialOf, NAME, POSITION, ROLL } from './shared-fields.ts';

const RECEPTOR = { dome: 'Dome', flat: 'Flat' };

export const FIGURE: KindTable = {
  kind: 'figures',
  word: 'Figure',
  sections: [
    {
      title: 'Figure',
      Facts: FigureFacts,
      fields: [
        NAME,
        {
          as: 'choice',
          path: ['pose'],
          label: 'Pose',
          words: { standing: 'Standing', sitting: 'Sitting', leaning: 'Leaning', walking: 'Walking' },
          absent: 'standing',
        },
        {
          as: 'figure',
          path: ['heading_deg'],
          label: 'Looks toward',
          quantity: 'angle',
          step: 5,
          slide: { from: -180, to: 180 },
          absent: '0',
          help: '0 looks down the plan, 90 to its right.',
        },
        length('height_m', 'Tall', { step: 0.01, absent: '1.7 m' }),
        POSITION,
      ],
    },
    {
      title: 'Wardrobe',
      fields: [
        materialOf('skin', 'Skin', 'mid skin'),
        materialOf('upper', 'Above', 'grey wool'),
        materialOf('lower', 'Below', 'dark wool'),
      ],
    },
  ],
};

export const MARK: KindTable = {
  kind: 'marks',
  word: 'Mark',
  sections: [
    {
      title: 'Meter',
      Facts: MarkFacts,
      factsFirst: true,
      fields: [
        NAME,
        {
          as: 'choice',
          path: ['receptor'],
          label: 'Receptor',
          words: RECEPTOR,
          absent: 'dome',
          help: 'The dome takes light from half the room, the flat cell by its angle: one lamp, or a ratio.',
        },
        {
          as: 'special',
          path: ['facing'],
          label: 'Faces',
          covers: [[]],
          Component: FacingField,
          help: 'Which way the receptor points.',
        },
        POSITION,
      ],
    },
  ],
};

const AS_NOW = 'as it is now';
const TAKEN: readonly Field[] = [
  { as: 'reference', path: ['lamp'], label: 'Lamp', to: 'lamps' },
  { ...POSITION, label: 'Stood at', absent: AS_NOW },
  { ...POSITION, path: ['aim_m'], label: 'Aimed at', absent: AS_NOW },
  { ...ROLL, absent: AS_NOW },
  { as: 'figure', path: ['level'], label: 'Level', quantity: 'percent', step: 0.01, absent: AS_NOW },
  { as: 'references', path: ['filters'], label: 'Filters', to: 'filters', add: 'Add a filter' },
];

export const READING: KindTable = {
  kind: 'readings',
  word: 'Meter reading',
  sections: [
    {
      title: 'Taken on the night',
      Facts: ReadingFacts,
      fields: [
        NAME,
        { as: 'reference', path: ['mark'], label: 'At mark', to: 'marks' },
        { as: 'figure', path: ['illuminance_lx'], label: 'Read', quantity: 'illuminance', step: 1 },
        { as: 'references', path: ['lamps'], label: 'Lamps alight', to: 'lamps', add: 'Add a lamp' },
        {
          as: 'choice',
          path: ['receptor'],
          label: 'Receptor',
          words: RECEPTOR,
          absent: 'the mark’s',
        },
      ],
    },
    {
      title: 'Lamps as they stood then',
      folded: true,
      fields: [
        {
          as: 'list',
          path: ['taken'],
          label: 'As they stood',
          one: 'Lamp',
          help: 'Kept by itself when a lamp is changed after it was metered.',
          fields: TAKEN,
        },
      ],
    },
  ],
};
