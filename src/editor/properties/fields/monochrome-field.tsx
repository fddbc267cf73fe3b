import { CONTRAST_FILTERS } from '../../../core/monochrome/contrast-filter.ts';
import { HUES, type Hue, MOST_HUE_STOPS } from '../../../core/monochrome/hue-curve.ts';
import type { Path } from '../../../scene/problems/problem.ts';
import type { Monochrome } from '../../../scene/schema/camera.ts';
import { useDesk, useFieldValue } from '../desk.tsx';
import type { SpecialProps } from '../field.ts';
import { limitsOf } from '../schema-limits.ts';
import { FieldRow } from './field-row.tsx';
import { FigureRow } from './figure-field.tsx';
import { TypedFigure } from './typed-figure.tsx';

const LUMINANCE: readonly [number, number, number] = [0.2126, 0.7152, 0.0722];
const WAYS: Readonly<Record<string, { readonly words: string; readonly start: Monochrome | undefined }>> = {
  none: { words: 'In colour', start: undefined },
  weights: { words: 'By weights', start: { weights: [...LUMINANCE] } },
  filter: { words: 'By a contrast filter', start: { filter: CONTRAST_FILTERS[0] } },
  hues: { words: 'Hue by hue', start: { hues: {} } },
};

/** How a picture becomes grey: one of three ways, or not at all. */
export function MonochromeField({ field, at }: SpecialProps) {
  const desk = useDesk();
  const value = useFieldValue(at) as Monochrome | undefined;
  const way = typeof value === 'object' ? Object.keys(value)[0]! : 'none';
  return (
    <>
      <FieldRow label="Picture" path={at} help={field.help}>
        <select
          aria-label="Monochrome"
          value={way}
          onChange={({ target }) => desk.set(at, WAYS[target.value]!.start)}
        >
          {Object.entries(WAYS).map(([key, { words }]) => (
            <option key={key} value={key}>
              {words}
            </option>
          ))}
        </select>
      </FieldRow>
      {value?.weights && <Weights at={[...at, 'weights']} weights={value.weights} />}
      {value?.filter && <ContrastFilter at={[...at, 'filter']} chosen={value.filter} />}
      {value?.hues &&
        (Object.keys(HUES) as Hue[]).map((hue) => (
          <FigureRow
            key={hue}
            field={{
              as: 'figure',
              path: [hue],
              label: hue.charAt(0).toUpperCase() + hue.slice(1),
              quantity: 'stops',
              step: 0.1,
              slide: { from: -MOST_HUE_STOPS, to: MOST_HUE_STOPS },
              absent: '0',
              help: 'Stops by which a pure colour of this hue is lifted.',
            }}
            at={[...at, 'hues', hue]}
          />
        ))}
    </>
  );
}

const CHANNELS = ['red', 'green', 'blue'] as const;
type Weights3 = readonly [number, number, number];

function Weights({ at, weights }: { readonly at: Path; readonly weights: Weights3 }) {
  const desk = useDesk();
  return (
    <fieldset
      className="field-vector"
      data-help="Shares of linear red, green and blue. Change one and the other two keep their ratio, so that all add up to 1."
    >
      <legend className="field-label">Weights</legend>
      <div className="field-parts">
        {CHANNELS.map((channel, index) => (
          <span key={channel} className="field-part">
            <span className="axis-name" aria-hidden="true">
              {channel}
            </span>
            <TypedFigure
              label={`Weight of ${channel}`}
              quantity="share"
              value={weights[index]}
              placeholder=""
              limits={limitsOf(desk.kind, [...at, index])!}
              step={0.05}
              onChange={(typed) => typed !== undefined && desk.set(at, weightsWith(weights, index, typed))}
            />
          </span>
        ))}
      </div>
    </fieldset>
  );
}

/** One weight set and the other two scaled, evenly split where they were nothing, so that all three add up to 1. */
export function weightsWith(weights: Weights3, index: number, weight: number): Weights3 {
  const others = weights.reduce((sum, w, i) => (i === index ? sum : sum + w), 0);
  const left = 1 - weight;
  const scaled = weights.map((w, i) => {
    if (i === index) return weight;
    return Math.abs(others) < 1e-9 ? left / 2 : (w * left) / others;
  });
  const rounded = scaled.map((w) => Number(w.toFixed(4)));
  const last = index === 2 ? 1 : 2;
  rounded[last] = Number((1 - rounded.reduce((sum, w, i) => (i === last ? sum : sum + w), 0)).toFixed(4));
  return rounded as unknown as Weights3;
}

type Contrast = NonNullable<Monochrome['filter']>;

function ContrastFilter({ at, chosen }: { readonly at: Path; readonly chosen: Contrast }) {
  const desk = useDesk();
  return (
    <FieldRow label="Filter" path={at} help="As on black-and-white film: its own colour comes out lighter.">
      <select
        aria-label="Contrast filter"
        value={chosen}
        onChange={({ target }) => desk.set(at, target.value)}
      >
        {CONTRAST_FILTERS.map((filter) => (
          <option key={filter} value={filter}>
            {filter}
          </option>
        ))}
      </select>
    </FieldRow>
  );
}
