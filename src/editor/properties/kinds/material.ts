import { MaterialFacts } from '../costs/material-facts.tsx';
import type { KindTable } from '../field.ts';
import { ReflectanceField } from '../fields/reflectance-field.tsx';
import { NAME, share } from './shared-fields.ts';

export const MATERIAL: KindTable = {
  kind: 'materials',
  word: 'Material',
  sections: [
    {
      title: 'Surface',
      Facts: MaterialFacts,
      fields: [
        NAME,
        {
          as: 'special',
          path: [],
          label: 'Base',
          covers: [['reflectance'], ['metal']],
          Component: ReflectanceField,
          help: 'What the matt base sends back, or a bare metal.',
        },
        share('roughness', 'Roughness', {
          absent: '50',
          help: 'Of the coat or the metal: 0 a mirror, 4 % car paint, 25 % wet asphalt.',
        }),
        {
          as: 'figure',
          path: ['coatIor'],
          label: 'Clear coat',
          quantity: 'number',
          step: 0.01,
          slide: { from: 1, to: 2 },
          absent: 'none: matt',
          help: 'Refractive index of a gloss over the base: water 1.33, lacquer 1.5.',
        },
      ],
    },
  ],
};
