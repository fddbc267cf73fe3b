import { FilterFacts } from '../costs/filter-facts.tsx';
import type { Field, KindTable, Variant } from '../field.ts';
import { figure, NAME, share } from './shared-fields.ts';

const visible = { slide: { from: 400, to: 700 } } as const;
const edge: readonly Field[] = [figure('edge_nm', 'Edge', 'nanometre', 5, visible)];
const band: readonly Field[] = [
  figure('centre_nm', 'Middle', 'nanometre', 5, visible),
  figure('width_nm', 'Width', 'nanometre', 5, {
    slide: { from: 10, to: 250 },
    help: 'Between the half-way points of its edges.',
  }),
];
const BAND = { centre_nm: 530, width_nm: 100 };

const stops: readonly Field[] = [figure('stops', 'Takes', 'stops', 1 / 3, { slide: { from: 0, to: 6 } })];

const variants: Readonly<Record<string, Variant>> = {
  conversion: {
    words: 'Colour conversion: orange or blue',
    start: { shift_mired: 109 },
    fields: [
      figure('shift_mired', 'Shift', 'mired', 5, {
        slide: { from: -200, to: 200 },
        help: 'Above zero orange, below zero blue.',
      }),
      share('transmission', 'Swatch passes', {
        absent: 'by its shift',
        help: 'What the swatch book states, on the lamp it is made for: orange on daylight, blue on tungsten.',
      }),
    ],
  },
  green: {
    words: 'Plus or minus green',
    start: { density: 0.15 },
    fields: [
      figure('density', 'Density', 'share', 0.025, {
        slide: { from: -0.3, to: 0.3 },
        help: 'Above zero plus green, below zero minus green. Half is about 0.15.',
      }),
    ],
  },
  colour: {
    words: 'Saturated colour',
    start: { band: { shape: 'long-pass', edge_nm: 575 }, softness_nm: 35, top: 0.88, floor: 0.01 },
    fields: [
      {
        as: 'variant',
        path: ['band'],
        label: 'Passes',
        by: 'shape',
        variants: {
          'long-pass': { words: 'All above an edge', start: { edge_nm: 575 }, fields: edge },
          'short-pass': { words: 'All below an edge', start: { edge_nm: 530 }, fields: edge },
          'band-pass': { words: 'A band', start: BAND, fields: band },
          notch: { words: 'All but a band', start: BAND, fields: band },
        },
      },
      figure('softness_nm', 'Softness', 'nanometre', 5, {
        slide: { from: 5, to: 120 },
        help: 'In how many nanometres an edge goes from a tenth to nine tenths.',
      }),
      share('top', 'Passes most'),
      share('floor', 'Passes least'),
    ],
  },
  diffusion: {
    words: 'Diffusion',
    start: { transmission: 0.5, direct: 0.1, spread_deg: 50 },
    fields: [
      share('transmission', 'Passes', { help: 'Share of the light that gets through at all.' }),
      share('direct', 'Stays straight', { help: 'Of what gets through.' }),
      figure('spread_deg', 'Spread', 'angle', 5, {
        slide: { from: 2, to: 180 },
        help: 'Full angle at half strength of what is scattered.',
      }),
    ],
  },
  neutral: { words: 'Neutral density', start: { stops: 1 }, fields: stops },
  net: { words: 'Net or scrim', start: { stops: 0.5 }, fields: stops },
  table: {
    words: 'Measured transmittance',
    start: { wavelength_nm: [380, 780], transmittance: [1, 1] },
    fields: [
      {
        as: 'table',
        path: [],
        label: 'Transmittance',
        columns: [
          { path: ['wavelength_nm'], label: 'nm' },
          { path: ['transmittance'], label: '0 to 1' },
        ],
        help: 'One wavelength in a line and the share that passes.',
      },
    ],
  },
};

export const FILTER: KindTable = {
  kind: 'filters',
  word: 'Filter',
  sections: [
    {
      title: 'What it passes',
      Facts: FilterFacts,
      fields: [NAME, { as: 'variant', path: [], label: 'Kind', by: 'kind', variants }],
    },
  ],
};
