import { useSheet } from '../../panels/use-sheet.ts';
import { documentShown, readingFreshness } from '../../store/shown-scene.ts';
import { useEditor } from '../../store/use-editor.ts';
import type { FactsProps } from '../field.ts';
import { Fact, Facts } from './facts.tsx';
import { stopsWord } from './stops-word.ts';

const SHOWN_LAMPS = 4;

/** What the meter reads at a mark, and which lamps give it. */
export function MarkFacts({ id }: FactsProps) {
  const shown = useSheet();
  const freshness = useEditor(readingFreshness);
  const lamps = useEditor((state) => documentShown(state)?.lamps);
  const index = shown?.sheet.rows.findIndex((row) => row.id === id) ?? -1;
  if (!shown || index < 0) {
    return (
      <Facts>
        <Fact name="Reads">metering…</Fact>
      </Facts>
    );
  }
  const row = shown.sheet.rows[index]!;
  const { unit } = shown.sheet;
  const nameOf = (lamp: string) => lamps?.find((one) => one.id === lamp)?.name ?? lamp;
  const order = shown.report.marks[index]!.lamps.map((lamp, i) => ({
    lx: lamp.illuminance_lx,
    part: row.lamps[i]!,
  }))
    .filter(({ lx }) => lx > 0)
    .sort((a, b) => b.lx - a.lx)
    .slice(0, SHOWN_LAMPS);
  return (
    <Facts stale={freshness === 'stale'}>
      <Fact name="Reads" note={freshness === 'fresh' ? row.plusMinus : 'not the last word'}>
        {row.reading} {unit}, {stopsWord(row.stops)}, {row.fNumber}
      </Fact>
      <Fact name="Colour">{row.colour}</Fact>
      {order.map(({ part }) => (
        <Fact key={part.id} name={nameOf(part.id)}>
          {part.reading} {unit}, {part.stops}
        </Fact>
      ))}
    </Facts>
  );
}
