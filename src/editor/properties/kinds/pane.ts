import { PaneFacts } from '../costs/pane-facts.tsx';
import type { KindTable } from '../field.ts';
import { NAME, share } from './shared-fields.ts';

export const PANE: KindTable = {
  kind: 'panes',
  word: 'Pane',
  sections: [
    {
      title: 'What it passes',
      Facts: PaneFacts,
      fields: [
        NAME,
        share('direct', 'Goes straight on', {
          help: 'Share of the light that keeps its way. With what scatters, 100 % at most.',
        }),
        share('scattered', 'Scatters', {
          absent: '0',
          help: 'Share of the light that dirt or diffusion throws about.',
        }),
        {
          as: 'figure',
          path: ['spread_deg'],
          label: 'Spread',
          quantity: 'angle',
          step: 5,
          slide: { from: 5, to: 180 },
          absent: '60',
          help: 'Full angle of what is scattered.',
        },
      ],
    },
  ],
};
