import { stopsText } from '../../panels/level-text.ts';
import { LampElectricFacts, LampLightFacts, LampStandFacts } from '../costs/lamp-facts.tsx';
import type { KindTable } from '../field.ts';
import { FilterStack } from '../fields/filter-stack.tsx';
import { length, NAME, ROLL } from './shared-fields.ts';

const axis = (path: 'position_m' | 'aim_m', index: 0 | 1 | 2, label: string, help?: string) =>
  ({
    as: 'figure',
    path: [path, index],
    label,
    quantity: 'length',
    step: 0.05,
    slide: { reach: index },
    ...(help ? { help } : {}),
  }) as const;

export const LAMP: KindTable = {
  kind: 'lamps',
  word: 'Lamp',
  sections: [
    {
      title: 'Light',
      Facts: LampLightFacts,
      fields: [
        {
          as: 'switch',
          path: ['on'],
          label: 'On',
          absent: true,
          help: 'Off, it gives no light and draws nothing.',
        },
        {
          as: 'figure',
          path: ['level'],
          label: 'Level',
          quantity: 'percent',
          step: 0.01,
          slide: { from: 0, to: 1 },
          absent: '100',
          beside: stopsText,
          help: 'Share of its full light. Half is one stop less.',
        },
        {
          as: 'special',
          path: ['filters'],
          label: 'Filters',
          covers: [[]],
          Component: FilterStack,
          help: 'What stands before it, the nearest first: gels, nets, diffusion.',
        },
      ],
    },
    {
      title: 'Stand',
      Facts: LampStandFacts,
      fields: [
        axis('position_m', 1, 'Height', 'Of the middle of its face, over y = 0.'),
        axis('position_m', 0, 'Stand x', 'To the right on the plan.'),
        axis('position_m', 2, 'Stand z', 'Down the plan.'),
        {
          as: 'group',
          path: ['stand'],
          label: 'On a stand',
          start: { maxHeight_m: 3.8, footRadius_m: 0.6 },
          fields: [
            length('maxHeight_m', 'Goes up to', {
              help: 'The highest that the stand holds this head, over its ground.',
            }),
            length('footRadius_m', 'Feet reach', {
              absent: 'not given',
              help: 'From the middle to where the three legs touch the ground.',
            }),
            {
              as: 'figure',
              path: ['mass_kg'],
              label: 'Stand weighs',
              quantity: 'kilogram',
              step: 0.5,
              absent: 'not given',
            },
            {
              as: 'figure',
              path: ['ballast_kg'],
              label: 'Ballast',
              quantity: 'kilogram',
              step: 1,
              absent: '0',
              help: 'Bags on the legs.',
            },
            {
              as: 'switch',
              path: ['sheltered'],
              label: 'Out of the wind',
              absent: false,
              help: 'No wind gets at it. If nobody says, stands within a vehicle are sheltered and no others.',
            },
          ],
        },
      ],
    },
    {
      title: 'Aim',
      fields: [axis('aim_m', 0, 'Aim x'), axis('aim_m', 1, 'Aim y'), axis('aim_m', 2, 'Aim z')],
    },
    {
      title: 'Head',
      fields: [
        {
          as: 'reference',
          path: ['head'],
          label: 'Head',
          to: 'heads',
          help: 'The kind of lamp: its light, its face, what it draws.',
        },
        { ...ROLL, help: 'Turns a long or square face, clockwise as seen from behind the lamp.' },
        NAME,
      ],
    },
    {
      title: 'Power',
      Facts: LampElectricFacts,
      fields: [
        {
          as: 'reference',
          path: ['supply'],
          label: 'Supply',
          to: 'supplies',
          absent: 'Plugged into nothing',
        },
        {
          as: 'choice',
          path: ['phase'],
          label: 'Phase',
          words: { 1: 'L1', 2: 'L2', 3: 'L3' },
          absent: 'whichever balances',
          help: 'Of a three-phase supply.',
        },
      ],
    },
  ],
};
