import { HazeFacts } from '../costs/haze-facts.tsx';
import { KeepOutFacts } from '../costs/keep-out-facts.tsx';
import { PathFacts } from '../costs/path-facts.tsx';
import { SupplyFacts } from '../costs/supply-facts.tsx';
import type { KindTable } from '../field.ts';
import { InstantField } from '../fields/instant-field.tsx';
import { KeepOutList } from '../fields/keep-out-list.tsx';
import { MoverField } from '../fields/mover-field.tsx';
import { figure, kelvin, length, NAME, POSITION, share, TURN } from './shared-fields.ts';

export const HAZE: KindTable = {
  kind: 'haze',
  word: 'Haze',
  sections: [
    {
      title: 'Haze',
      Facts: HazeFacts,
      factsFirst: true,
      fields: [
        figure('visibility_m', 'Visibility', 'length', 10, {
          slide: { from: 50, to: 3000, ratio: true },
          help: 'How far a black thing is still told from its ground, at 2 % contrast.',
        }),
        share('albedo', 'Scatters', {
          absent: '95',
          help: 'Of the light that it takes, the share that it throws about. Smoke less.',
        }),
        figure('anisotropy', 'Forward', 'share', 0.05, {
          slide: { from: -0.9, to: 0.95 },
          absent: '0.8',
          help: 'Mean cosine of scattering: 0 every way alike, near 1 onward, as fog does.',
        }),
        {
          as: 'list',
          path: ['regions'],
          label: 'Hangs in',
          one: 'Box',
          next: (last) => last ?? { position_m: [0, 1.5, 0], size_m: [6, 3, 6] },
          help: 'Boxes that it fills. Without any, it hangs everywhere.',
          fields: [
            NAME,
            { ...POSITION, label: 'Middle' },
            {
              as: 'vector',
              path: ['size_m'],
              label: 'Size',
              quantity: 'length',
              step: 0.1,
              parts: ['x', 'y', 'z'],
            },
            TURN,
          ],
        },
      ],
    },
  ],
};

export const SITE: KindTable = {
  kind: 'site',
  word: 'Site',
  sections: [
    {
      title: 'Site',
      fields: [
        {
          as: 'group',
          path: ['mains'],
          label: 'Mains',
          start: { volts: 230, hertz: 50 },
          fields: [
            figure('volts', 'Volts', 'volt', 1),
            { as: 'choice', path: ['hertz'], label: 'Hertz', words: { 50: '50 Hz', 60: '60 Hz' } },
          ],
        },
        {
          as: 'group',
          path: ['sky'],
          label: 'Night sky',
          start: { illuminance_lx: 0.3 },
          fields: [
            figure('illuminance_lx', 'Gives', 'illuminance', 0.1, {
              help: 'On open level ground, lamps out: 0.3 lx with a full moon, 1 to 20 lx under a town’s sky.',
            }),
            kelvin('cct_K', 'Colour', { absent: '4100' }),
          ],
        },
        {
          as: 'group',
          path: ['wind'],
          label: 'Wind',
          start: { speed_m_s: 5 },
          fields: [
            figure('speed_m_s', 'Steady', 'metrePerSecond', 0.5, {
              slide: { from: 0, to: 20 },
              help: 'At the height of the lamps.',
            }),
            figure('gust_m_s', 'Gusts', 'metrePerSecond', 0.5, {
              slide: { from: 0, to: 30 },
              absent: 'not given',
            }),
          ],
        },
        {
          as: 'group',
          path: ['place'],
          label: 'Place and night',
          start: { latitude_deg: 52, longitude_deg: 0, start: '2027-01-01T20:00:00Z' },
          fields: [
            figure('latitude_deg', 'Latitude', 'geographic', 0.1, { help: 'North above zero.' }),
            figure('longitude_deg', 'Longitude', 'geographic', 0.1, { help: 'East above zero.' }),
            {
              as: 'special',
              path: ['start'],
              label: 'Starts',
              covers: [[]],
              Component: InstantField,
              help: 'Date and time with the offset from universal time of the place.',
            },
          ],
        },
        {
          as: 'special',
          path: ['keepOut'],
          label: 'Keep-out areas',
          covers: [[]],
          Component: KeepOutList,
          help: 'Where nothing may stand: edges, lanes, exits.',
        },
      ],
    },
  ],
};

export const KEEP_OUT: KindTable = {
  kind: 'keepOut',
  word: 'Keep-out area',
  sections: [
    {
      title: 'Area',
      Facts: KeepOutFacts,
      fields: [
        NAME,
        {
          as: 'list',
          path: ['outline_m'],
          label: 'Corners',
          one: 'Corner',
          next: (last) => last ?? [0, 0],
          fields: [{ as: 'vector', path: [], label: 'At', quantity: 'length', step: 0.1, parts: ['x', 'z'] }],
        },
      ],
    },
  ],
};

export const SUPPLY: KindTable = {
  kind: 'supplies',
  word: 'Supply',
  sections: [
    {
      title: 'Supply',
      Facts: SupplyFacts,
      fields: [
        NAME,
        {
          as: 'choice',
          path: ['kind'],
          label: 'Kind',
          words: { mains: 'Mains', generator: 'Generator', battery: 'Battery' },
        },
        figure('volts', 'Volts', 'volt', 1, {
          help: 'What a lamp gets; with three phases, from a phase to neutral.',
        }),
        {
          as: 'choice',
          path: ['phases'],
          label: 'Phases',
          words: { 1: 'One', 3: 'Three' },
          absent: 'one',
        },
        figure('breaker_A', 'Breaker', 'ampere', 1, { absent: 'not given', help: 'Of each phase.' }),
        share('continuous', 'For hours', {
          absent: '80',
          help: 'Share of the breaker that may be drawn for hours.',
        }),
        figure('rating_kVA', 'Rating', 'kVA', 0.5, { absent: 'not given', help: 'Of a generator.' }),
        figure('capacity_Wh', 'Capacity', 'wattHour', 10, { absent: 'not given', help: 'Of a battery.' }),
        {
          as: 'group',
          path: ['cable'],
          label: 'Cable',
          start: { length_m: 50, area_mm2: 2.5 },
          fields: [
            length('length_m', 'Long', { step: 1, help: 'One way.' }),
            figure('area_mm2', 'Copper', 'squareMillimetre', 0.5),
          ],
        },
      ],
    },
  ],
};

export const PATH: KindTable = {
  kind: 'paths',
  word: 'Path',
  sections: [
    {
      title: 'Path',
      Facts: PathFacts,
      fields: [
        NAME,
        { as: 'special', path: ['of'], label: 'Who moves', covers: [[]], Component: MoverField },
        {
          as: 'list',
          path: ['points'],
          label: 'Points',
          one: 'Point',
          next: (last) => nextPoint(last as PathPoint | undefined),
          help: 'Straight between them, the times rising.',
          fields: [figure('t_s', 'At', 'second', 0.5), { ...POSITION, label: 'Stands at' }],
        },
      ],
    },
  ],
};

interface PathPoint {
  readonly t_s: number;
  readonly position_m: readonly [number, number, number];
}

const WALK_s = 2;
const WALK_m = 2.8;

/** At a walk along x. */
function nextPoint(last: PathPoint | undefined): PathPoint {
  if (!last) return { t_s: 0, position_m: [0, 0, 0] };
  const [x, y, z] = last.position_m;
  return { t_s: last.t_s + WALK_s, position_m: [x + WALK_m, y, z] };
}
