import { memo } from 'react';
import type { PlacedNeedle } from './rule-layout.ts';
import { type RuleScale, ticksOf, whitePaper_stops } from './rule-scale.ts';
import { useRule } from './rule-state.ts';
import { textWidth_px } from './text-width.ts';
import { flagPlace_stops, WantedFlag } from './wanted-flag.tsx';

/** Stops narrower than this have every second figure. */
const LEAST_FIGURE_px = 26;
/** Stops narrower than this leave no room for the word at the paper's white. */
const LEAST_WORD_px = 52;

/** The ruler itself under the needles: stops and thirds, its ends by name, and the flags of what is wanted. */
export function RuleStrip({
  needles,
  scale,
  chosen,
}: {
  readonly needles: readonly PlacedNeedle[];
  readonly scale: RuleScale;
  readonly chosen: string | undefined;
}) {
  const wants = useRule((state) => state.wants);
  const flagged = needles.filter(({ mixed }) => wants.has(mixed.mark.id) || mixed.mark.id === chosen);
  const cloths_px = flagged.map(({ mixed }) =>
    Math.round(scale.x_px(flagPlace_stops(mixed.stops, wants.get(mixed.mark.id) ?? null, scale))),
  );
  return (
    <div className="rule-strip">
      <Figures scale={scale} />
      <EndWords scale={scale} cloths_px={cloths_px} />
      {flagged.map((needle) => {
        const { id } = needle.mixed.mark;
        return (
          <WantedFlag
            key={id}
            needle={needle}
            scale={scale}
            wanted_stops={wants.get(id) ?? null}
            own={id === chosen}
          />
        );
      })}
    </div>
  );
}

const Figures = memo(function Figures({ scale }: { readonly scale: RuleScale }) {
  const { range, width_px, perStop_px } = scale;
  const white_px = scale.x_px(range.white_stops);
  const floor_px = scale.x_px(range.floor_stops);
  const paper_px = scale.x_px(whitePaper_stops(range));
  const every = perStop_px >= LEAST_FIGURE_px ? 1 : 2;
  return (
    <svg className="rule-figures" width={width_px} height={56} role="img" aria-label={endsWords(range)}>
      <rect className="rule-beyond" width={floor_px} height={12} />
      <rect className="rule-beyond" x={white_px} width={width_px - white_px} height={12} />
      {ticksOf(scale).map(({ stops, kind }) => (
        <line
          key={stops}
          className={kind === 'zero' ? 'rule-zero' : 'rule-tick'}
          x1={scale.x_px(stops)}
          x2={scale.x_px(stops)}
          y2={kind === 'third' ? 5 : 10}
        />
      ))}
      {ticksOf(scale)
        .filter(({ stops, kind }) => kind !== 'third' && stops % every === 0)
        .map(({ stops, kind }) => (
          <text
            key={stops}
            x={scale.x_px(stops)}
            y={25}
            className={kind === 'zero' ? 'rule-zero-word' : undefined}
          >
            {stops === 0 ? '0' : `${stops < 0 ? '\u2212' : '+'}${Math.abs(stops)}`}
          </text>
        ))}
      <line className="rule-end" x1={white_px} x2={white_px} y2={14} />
      <line className="rule-end" x1={floor_px} x2={floor_px} y2={14} />
      <path className="rule-paper" d={`M${paper_px} 0l-4 9h8z`} />
    </svg>
  );
});

interface EndWord {
  readonly words: string;
  /** Where it may stand, the best place first. */
  readonly places: readonly { readonly x_px: number; readonly anchor: 'start' | 'middle' | 'end' }[];
}

const WORD_SIZE_px = 12;
const CLOTH_WIDTH_px = 84;
const WORD_GAP_px = 6;

/** What the ends and the zero of the ruler are called; a word makes way for a flag that hangs there. */
function EndWords({
  scale,
  cloths_px,
}: {
  readonly scale: RuleScale;
  readonly cloths_px: readonly number[];
}) {
  const { width_px, perStop_px, range } = scale;
  const zero_px = scale.x_px(0);
  const wanted: readonly EndWord[] = [
    { words: 'noise floor', places: [{ x_px: 4, anchor: 'start' }] },
    {
      words: 'camera’s zero',
      places: [
        { x_px: zero_px, anchor: 'middle' },
        { x_px: zero_px - WORD_GAP_px, anchor: 'end' },
        { x_px: zero_px + WORD_GAP_px, anchor: 'start' },
      ],
    },
    { words: 'grey card white', places: [{ x_px: width_px - 4, anchor: 'end' }] },
    ...(perStop_px >= LEAST_WORD_px
      ? [
          {
            words: 'paper white',
            places: [{ x_px: scale.x_px(whitePaper_stops(range)), anchor: 'middle' }],
          } as const,
        ]
      : []),
  ];
  const taken = cloths_px.map((x_px) => [x_px - WORD_GAP_px, x_px + CLOTH_WIDTH_px] as const);
  return (
    <svg className="rule-figures" width={width_px} height={56} aria-hidden="true">
      {wanted.map(({ words, places }) => {
        const word_px = textWidth_px(words, 400, WORD_SIZE_px);
        const place = places.find(({ x_px, anchor }) => {
          const from_px = x_px - (anchor === 'start' ? 0 : anchor === 'end' ? word_px : word_px / 2);
          return taken.every(([left, right]) => from_px + word_px <= left || from_px >= right);
        });
        return (
          place && (
            <text key={words} className="rule-end-word" x={place.x_px} y={46} textAnchor={place.anchor}>
              {words}
            </text>
          )
        );
      })}
    </svg>
  );
}

function endsWords({ white_stops, floor_stops }: RuleScale['range']): string {
  return `Ruler in stops from the camera's zero. A grey card turns white at ${white_stops} over, white paper at ${whitePaper_stops({ white_stops, floor_stops }).toFixed(1)} over, and is lost in noise at ${-floor_stops} under.`;
}
