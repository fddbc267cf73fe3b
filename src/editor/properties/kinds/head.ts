import { flux_lm } from '../../../core/photometry/flux.ts';
import { distributionFrom } from '../../../core/photometry/lamp-photometry.ts';
import type { Photometry } from '../../../scene/schema/head.ts';
import { HeadFacts } from '../costs/head-facts.tsx';
import type { Field, FigureField, KindTable, Variant } from '../field.ts';
import { PhotometricFileField } from '../fields/photometric-file-field.tsx';
import { figure, kelvin, length, NAME } from './shared-fields.ts';

const BEAM: readonly Field[] = [
  figure('beam_deg', 'Beam', 'angle', 1, {
    slide: { from: 5, to: 120 },
    help: 'Full angle between the edges where half of the middle’s light is left.',
  }),
  figure('field_deg', 'Field', 'angle', 1, {
    slide: { from: 5, to: 180 },
    help: 'Full angle between the edges where a tenth is left. Wider than the beam.',
  }),
];
const SPREAD = { beam_deg: 40, field_deg: 65 };
const METERED_AT_m = 5;

/** What a head gave as it was known before, so that it gives the same when it is known in another way. */
function knownOutput(old: unknown): { readonly peak_cd: number; readonly flux_lm: number } | undefined {
  const photometry = old as Photometry;
  if (photometry.kind === 'file') return undefined;
  const distribution = distributionFrom(photometry);
  if (distribution.kind === 'table') return undefined;
  return { peak_cd: rounded(distribution.peak_cd), flux_lm: rounded(flux_lm(distribution)) };
}

function rounded(figure: number): number {
  return Number(figure.toPrecision(4));
}

const photometry: Readonly<Record<string, Variant>> = {
  beam: {
    words: 'Candela and beam angles',
    start: (old) => ({ peak_cd: knownOutput(old)?.peak_cd ?? 20_000, ...SPREAD }),
    fields: [figure('peak_cd', 'Peak', 'candela', 500, { help: 'Candela on the axis. ±⅔ stop.' }), ...BEAM],
  },
  metered: {
    words: 'Metered on its axis',
    start: (old) => ({
      illuminance_lx: rounded((knownOutput(old)?.peak_cd ?? 12_500) / METERED_AT_m ** 2),
      distance_m: METERED_AT_m,
      ...SPREAD,
    }),
    fields: [
      figure('illuminance_lx', 'Meter read', 'illuminance', 10, {
        help: 'With the flat receptor square to the beam, at five times the face’s size or more. ±⅓ stop.',
      }),
      length('distance_m', 'At'),
      ...BEAM,
    ],
  },
  lumens: {
    words: 'Lumens and beam angles',
    start: (old) => ({ flux_lm: knownOutput(old)?.flux_lm ?? 10_000, ...SPREAD }),
    fields: [
      figure('flux_lm', 'Lumens', 'lumen', 100, {
        help: 'All that leaves the head, not the bare lamp’s. ±1 stop.',
      }),
      ...BEAM,
    ],
  },
  diffuse: {
    words: 'Lumens from a soft face',
    start: (old) => ({ flux_lm: knownOutput(old)?.flux_lm ?? 1600 }),
    fields: [figure('flux_lm', 'Lumens', 'lumen', 100, { help: 'Spread as from a matt face. ±1 stop.' })],
  },
  file: {
    words: 'Photometric file',
    comesBy: 'drop one on the page',
    start: { file: 'lamp.ies' },
    fields: [
      {
        as: 'special',
        path: [],
        label: 'File',
        covers: [['file'], ['text'], ['lampSet']],
        Component: PhotometricFileField,
        help: 'LM-63 or EULUMDAT. Its text travels inside the scene. ±⅔ stop.',
      },
    ],
  },
};

const cct = (more: Partial<FigureField> = {}): readonly Field[] => [
  { ...kelvin('cct_K', 'Colour'), ...more },
];

const spectrum: Readonly<Record<string, Variant>> = {
  planck: { words: 'Tungsten', start: { cct_K: 3200 }, fields: cct() },
  daylight: {
    words: 'Daylight',
    start: { cct_K: 5600 },
    fields: cct({ slide: { from: 4000, to: 10_000, ratio: true } }),
  },
  discharge: { words: 'Discharge', start: { cct_K: 5600 }, fields: cct() },
  led: { words: 'LED', start: { cct_K: 5600 }, fields: cct() },
  table: {
    words: 'Measured spectrum',
    start: { wavelength_nm: [380, 780], value: [1, 1] },
    fields: [
      {
        as: 'table',
        path: [],
        label: 'Spectrum',
        columns: [
          { path: ['wavelength_nm'], label: 'nm' },
          { path: ['value'], label: 'power' },
        ],
        help: 'One wavelength in a line and its power, in any scale.',
      },
    ],
  },
};

const face: Readonly<Record<string, Variant>> = {
  disc: {
    words: 'Round',
    start: { diameter_m: 0.3 },
    fields: [length('diameter_m', 'Across', { step: 0.01 })],
  },
  rectangle: {
    words: 'Rectangular',
    start: { size_m: [0.6, 0.3] },
    fields: [
      {
        as: 'vector',
        path: ['size_m'],
        label: 'Size',
        quantity: 'length',
        step: 0.01,
        parts: ['wide', 'high'],
      },
    ],
  },
  octagon: {
    words: 'Octagonal',
    start: { diameter_m: 1.2 },
    fields: [length('diameter_m', 'Across', { step: 0.01, help: 'Between two opposite flats.' })],
  },
};

export const HEAD: KindTable = {
  kind: 'heads',
  word: 'Head',
  sections: [
    {
      title: 'Light',
      Facts: HeadFacts,
      fields: [
        NAME,
        {
          as: 'variant',
          path: ['photometry'],
          label: 'Known by',
          by: 'kind',
          variants: photometry,
          help: 'What is known of its light decides how far its numbers can be trusted.',
        },
      ],
    },
    {
      title: 'Face',
      fields: [
        {
          as: 'variant',
          path: ['face'],
          label: 'Shape',
          by: 'shape',
          variants: face,
          help: 'Where the light leaves: how soft its shadows are, how bright its mirror image.',
        },
      ],
    },
    {
      title: 'Colour',
      fields: [{ as: 'variant', path: ['spectrum'], label: 'Light of', by: 'kind', variants: spectrum }],
    },
    {
      title: 'Power',
      folded: true,
      fields: [
        {
          as: 'group',
          path: ['electrical'],
          label: 'Electrical figures',
          start: { kind: 'led', input_W: 165 },
          fields: [
            {
              as: 'choice',
              path: ['kind'],
              label: 'Kind',
              words: { tungsten: 'Tungsten', discharge: 'Discharge', fluorescent: 'Fluorescent', led: 'LED' },
            },
            figure('input_W', 'Draws', 'watt', 5, { help: 'At its plug, ballast or driver included.' }),
            figure('powerFactor', 'Power factor', 'share', 0.01, {
              absent: 'not given',
              help: 'Watts over volt-amperes. Not given counts as 0.6, tungsten as 1.',
            }),
            {
              as: 'choice',
              path: ['flicker'],
              label: 'Flicker',
              words: { free: 'Free of it', mains: 'With the mains' },
              absent: 'not given',
            },
            figure('inrush_A', 'Inrush', 'ampere', 1, {
              absent: 'not given',
              help: 'Peak when it is switched on.',
            }),
            figure('restrike_min', 'Restrike', 'minute', 1, {
              absent: 'not given',
              help: 'How long it must cool before it strikes again; 0 strikes hot.',
            }),
          ],
        },
      ],
    },
    {
      title: 'Weight and wind',
      folded: true,
      fields: [
        figure('mass_kg', 'Weighs', 'kilogram', 0.5, { absent: 'not given' }),
        figure('windArea_m2', 'Catches wind', 'squareMetre', 0.05, {
          absent: 'not given',
          help: 'The largest area that it turns to the wind, with what hangs on it.',
        }),
      ],
    },
  ],
};
