import { readingText } from '../../../paperwork/exposure-sheet.ts';
import type { Head } from '../../../scene/schema/head.ts';
import { lengthText } from '../../figures/length-text.ts';
import { useTaste } from '../desk.tsx';
import type { FactsProps } from '../field.ts';
import { useThing } from '../use-thing.ts';
import { Fact, Facts } from './facts.tsx';
import { headOutput } from './light-at-aim.ts';
import { thousands } from './photometry-words.ts';

const SHOWN_AT_m = 10;

/** What the figures of a head come to. */
export function HeadFacts({ id }: FactsProps) {
  const head = useThing<Head>(id);
  const { lengths, unit } = useTaste();
  const output = head && headOutput(id, head);
  if (!head || !output) {
    return (
      <Facts>
        <Fact name="Light">not known until its file is inside the scene</Fact>
      </Facts>
    );
  }
  const { flux_lm, peak_cd, uncertainty_stops } = output;
  const watts = head.electrical?.input_W;
  return (
    <Facts>
      <Fact name="Peak" note={`±${uncertainty_stops.toFixed(1)} stop`}>
        {thousands(peak_cd)} cd
      </Fact>
      <Fact name={`At ${lengthText(SHOWN_AT_m, lengths)}`} note="in clear air, at its brightest">
        {readingText(peak_cd / SHOWN_AT_m ** 2, unit)} {unit}
      </Fact>
      <Fact name="Lumens" note={watts ? `${Math.round(flux_lm / watts)} lm for each watt drawn` : undefined}>
        {thousands(flux_lm)} lm
      </Fact>
    </Facts>
  );
}
