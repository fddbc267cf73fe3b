import type { Path } from '../../../scene/problems/problem.ts';
import { type Material, METALS } from '../../../scene/schema/material.ts';
import { baseReflectance } from '../costs/swatch-colour.ts';
import { useDesk, useFieldValue } from '../desk.tsx';
import type { SpecialProps } from '../field.ts';
import { useThingsNamed } from '../use-things-named.ts';
import { FieldRow } from './field-row.tsx';
import { FigureRow } from './figure-field.tsx';

type Way = 'grey' | 'colour' | 'spectrum' | 'metal';
const WAYS: Readonly<Record<Way, string>> = {
  grey: 'One reflectance',
  colour: 'Red, green, blue',
  spectrum: 'Measured spectrum',
  metal: 'Bare metal',
};

const FIRST_GREY = 0.18;
const CHANNELS = ['Red', 'Green', 'Blue'] as const;

/** What a surface is made of: a reflectance in one of three ways, or a metal. Changing the way keeps how light it is. */
export function ReflectanceField({ field, at }: SpecialProps) {
  const desk = useDesk();
  const reflectance = useFieldValue([...at, 'reflectance']) as Material['reflectance'];
  const metal = useFieldValue([...at, 'metal']) as Material['metal'];
  const spectra = useThingsNamed('reflectances');
  const way = wayOf({ reflectance, metal });

  return (
    <>
      <FieldRow
        label={field.label}
        path={[...at, way === 'metal' ? 'metal' : 'reflectance']}
        help={field.help}
      >
        <select
          aria-label={field.label}
          value={way ?? ''}
          onChange={({ target }) =>
            desk.set(at, (old: unknown) => inWay(old as Material, target.value as Way, spectra[0]?.id))
          }
        >
          {way === undefined && <option value="">several</option>}
          {Object.entries(WAYS).map(([key, words]) => (
            <option key={key} value={key}>
              {words}
            </option>
          ))}
        </select>
      </FieldRow>
      {way === 'grey' && (
        <FigureRow
          field={{
            as: 'figure',
            path: [],
            label: 'Reflectance',
            quantity: 'percent',
            step: 0.01,
            slide: { from: 0, to: 1 },
            help: 'Share of the light that comes back: grey card 18 %, white card 88 %, black velvet under 1 %.',
          }}
          at={[...at, 'reflectance']}
        />
      )}
      {way === 'colour' &&
        CHANNELS.map((channel, i) => (
          <Channel key={channel} label={channel} at={[...at, 'reflectance', i]} />
        ))}
      {way === 'spectrum' && (
        <Names
          label="Spectrum"
          at={[...at, 'reflectance']}
          value={String(reflectance)}
          names={spectra.map(({ id, name }) => [id, name])}
        />
      )}
      {way === 'metal' && (
        <Names
          label="Metal"
          at={[...at, 'metal']}
          value={String(metal)}
          names={METALS.map((one) => [one, one.replace('-', ' ')])}
        />
      )}
    </>
  );
}

function Channel({ label, at }: { readonly label: string; readonly at: Path }) {
  return (
    <FigureRow
      field={{
        as: 'figure',
        path: [],
        label,
        quantity: 'percent',
        step: 0.01,
        slide: { from: 0, to: 1 },
        help: 'Share of linear red, green or blue that comes back, as a lit sample shows it.',
      }}
      at={at}
    />
  );
}

interface NamesProps {
  readonly label: string;
  readonly at: Path;
  readonly value: string;
  readonly names: readonly (readonly [id: string, name: string])[];
}

function Names({ label, at, value, names }: NamesProps) {
  const desk = useDesk();
  return (
    <FieldRow label={label} path={at}>
      <select aria-label={label} value={value} onChange={({ target }) => desk.set(at, target.value)}>
        {names.map(([id, name]) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </select>
    </FieldRow>
  );
}

function wayOf({ reflectance, metal }: Pick<Material, 'reflectance' | 'metal'>): Way | undefined {
  if (typeof metal === 'string') return 'metal';
  if (typeof reflectance === 'number') return 'grey';
  if (typeof reflectance === 'string') return 'spectrum';
  return Array.isArray(reflectance) ? 'colour' : undefined;
}

/** The material described in another way, as light as it was where that can be said. */
export function inWay(material: Material, way: Way, spectrum: string | undefined): Material {
  const { metal, reflectance, ...others } = material;
  const [r, g, b] =
    reflectance === undefined ? [FIRST_GREY, FIRST_GREY, FIRST_GREY] : baseReflectance(material);
  const round = (share: number) => Number(share.toFixed(3));
  switch (way) {
    case 'metal':
      return { ...others, metal: metal ?? METALS[0] };
    case 'grey':
      return { ...others, reflectance: round(0.2126 * r + 0.7152 * g + 0.0722 * b) };
    case 'colour':
      return { ...others, reflectance: [round(r), round(g), round(b)] };
    case 'spectrum':
      return spectrum === undefined ? material : { ...others, reflectance: spectrum };
  }
}
