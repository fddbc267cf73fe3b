import { type KeyboardEvent, memo, useEffect, useRef } from 'react';
import { thirdsText } from '../../core/exposure/thirds.ts';
import { type IlluminanceUnit, readingText } from '../../paperwork/exposure-sheet.ts';
import { choose, chooseToo } from '../store/choose.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { neighbourOf } from './neighbour.ts';
import { needleWords } from './reading-words.ts';
import { NEEDLE_WIDTH_px, type PlacedNeedle } from './rule-layout.ts';
import { useHoverLight } from './use-hover-light.ts';

interface NeedleListProps {
  readonly needles: readonly PlacedNeedle[];
  /** Those whose lanes are not scrolled away: only they are labelled. */
  readonly inSight: readonly PlacedNeedle[];
  readonly height_px: number;
  readonly lane_px: number;
  readonly chosen: string | undefined;
  readonly unit: IlluminanceUnit;
}

/** What is touched of the needles, with their labels. One stop of the Tab key; the arrows go along the ruler. */
export function NeedleList({ needles, inSight, height_px, lane_px, chosen, unit }: NeedleListProps) {
  const store = useEditorStore();
  const list = useRef<HTMLDivElement>(null);
  const hover = useHoverLight();
  const inReach = needles.some(({ mixed }) => mixed.mark.id === chosen) ? chosen : needles[0]?.mixed.mark.id;

  // What is only lit in passing stays where it is; what is chosen, here or elsewhere, is brought into sight.
  const wasChosen = useEditor((state) => state.chosen.at(-1));
  useEffect(() => {
    const option = wasChosen === undefined ? null : optionOf(list.current, wasChosen);
    option?.scrollIntoView({ block: 'nearest' });
  }, [wasChosen]);

  const labelled = new Set(inSight);

  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>) => {
    const to = neighbourOf(needles, inReach, event.key);
    if (event.key === 'Enter') flagOf(list.current)?.focus();
    if (to === undefined) return;
    event.preventDefault();
    choose(store, [to]);
    optionOf(list.current, to)?.focus();
  };

  return (
    <div
      ref={list}
      className="needle-list"
      role="listbox"
      aria-label="Marks along the stop rule"
      aria-orientation="horizontal"
      tabIndex={-1}
      onKeyDown={onKeyDown}
      onPointerLeave={hover.leave}
    >
      {needles.map((needle) => {
        const { id } = needle.mixed.mark;
        return (
          // biome-ignore lint/a11y/useKeyWithClickEvents: the list hears the keys
          <div
            key={id}
            role="option"
            data-needle={id}
            aria-selected={id === chosen}
            aria-label={needleWords(needle, unit)}
            title={needle.mixed.mark.name}
            tabIndex={id === inReach ? 0 : -1}
            className="needle"
            style={{
              width: needle.to_px - needle.from_px,
              transform: `translate(${needle.from_px}px, ${height_px - (needle.lane + 1) * lane_px}px)`,
            }}
            onClick={(event) => {
              hover.keep();
              if (event.shiftKey || event.ctrlKey || event.metaKey) chooseToo(store, id);
              else choose(store, [id]);
            }}
            onFocus={() => store.setState({ mark: id })}
            onPointerEnter={(event) => event.pointerType === 'mouse' && hover.enter(id)}
          >
            {labelled.has(needle) && <Label needle={needle} unit={unit} chosen={id === chosen} />}
          </div>
        );
      })}
    </div>
  );
}

const Label = memo(function Label({
  needle,
  unit,
  chosen,
}: {
  readonly needle: PlacedNeedle;
  readonly chosen: boolean;
  readonly unit: IlluminanceUnit;
}) {
  const { mixed, number, form, side, x_px, from_px, to_px } = needle;
  const away = NEEDLE_WIDTH_px / 2 + 6;
  const place = side === 'right' ? { left: x_px - from_px + away } : { right: to_px - x_px + away };
  if (form !== 'names') {
    return (
      <span className={`needle-words short ${side}`} style={place}>
        {form === 'bare' ? (
          <span className={`mark-number needle-number ${chosen ? 'chosen' : ''}`}>{number}</span>
        ) : (
          <>
            <span className="quiet">{number}</span> <strong>{thirdsText(mixed.stops)}</strong>
          </>
        )}
      </span>
    );
  }
  return (
    <span className={`needle-words with-name ${side}`} style={place}>
      <span className={`mark-number needle-number ${chosen ? 'chosen' : ''}`}>{number}</span>{' '}
      <bdi className="needle-name">{mixed.mark.name}</bdi>{' '}
      <span className="needle-figures">
        <strong>{thirdsText(mixed.stops)}</strong>{' '}
        <span className="quiet">
          {readingText(mixed.illuminance_lx, unit)} {unit}
        </span>
      </span>
    </span>
  );
});

function optionOf(list: HTMLElement | null, mark: string): HTMLElement | null {
  return list?.querySelector(`[data-needle="${CSS.escape(mark)}"]`) ?? null;
}

/** The flag of the chosen mark, on the ruler under the needles. */
function flagOf(list: HTMLElement | null): HTMLElement | null {
  return list?.closest('.rule-body')?.querySelector('.flag.own') ?? null;
}
