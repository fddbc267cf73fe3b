import { CalibrationFacts } from '../costs/calibration-facts.tsx';
import type { FigureField, KindTable } from '../field.ts';
import { ChangesField } from '../fields/changes-field.tsx';
import { SceneContents } from '../fields/scene-contents.tsx';
import { NAME } from './shared-fields.ts';

export const SCENE: KindTable = {
  kind: 'document',
  word: 'Scene',
  sections: [
    {
      title: 'Scene',
      fields: [
        { as: 'text', path: ['title'], label: 'Title' },
        { as: 'notes', path: ['notes'], label: 'Notes', absent: 'none' },
      ],
    },
    {
      title: 'All that is in it',
      fields: [
        {
          as: 'special',
          path: [],
          label: 'Contents',
          covers: [],
          Component: SceneContents,
        },
      ],
    },
  ],
};

const constant = (path: string, label: string, absent: string, help: string): FigureField => ({
  as: 'figure',
  path: [path],
  label,
  quantity: 'number',
  step: 5,
  absent,
  help,
});

export const CALIBRATION: KindTable = {
  kind: 'calibration',
  word: 'Meter constants',
  sections: [
    {
      title: 'Your meter',
      Facts: CalibrationFacts,
      fields: [
        constant(
          'flat',
          'C, flat',
          '250',
          'Incident constant with the flat receptor. Makers differ from 240 to 400.',
        ),
        constant('dome', 'C, dome', '330', 'Incident constant with the dome. Makers differ from 320 to 540.'),
        {
          ...constant(
            'reflected',
            'K',
            '12.5',
            'Reflected constant, of a spot meter. Makers differ from 10.6 to 13.4.',
          ),
          step: 0.1,
        },
      ],
    },
  ],
};

export const SETUP: KindTable = {
  kind: 'setups',
  word: 'Setup',
  sections: [
    {
      title: 'Setup',
      fields: [
        NAME,
        { as: 'notes', path: ['notes'], label: 'Notes', absent: 'none' },
        {
          as: 'special',
          path: ['changes'],
          label: 'What it changes',
          covers: [[]],
          Component: ChangesField,
          help: 'Show the setup and change things: what is changed becomes the setup’s own.',
        },
      ],
    },
  ],
};
