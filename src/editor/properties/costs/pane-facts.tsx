import type { Pane } from '../../../scene/schema/material.ts';
import type { FactsProps } from '../field.ts';
import { useThing } from '../use-thing.ts';
import { Fact, Facts } from './facts.tsx';

/** What a pane takes. */
export function PaneFacts({ id }: FactsProps) {
  const pane = useThing<Pane>(id);
  if (!pane) return null;
  const { direct, scattered = 0 } = pane;
  const loss = (share: number) =>
    share > 0 ? `\u2212${Math.abs(Math.log2(share)).toFixed(2)} stop` : 'all of it';
  return (
    <Facts>
      <Fact name="Takes" note="from light that goes straight through">
        {loss(direct)}
      </Fact>
      {scattered > 0 && <Fact name="In all">{loss(direct + scattered)}</Fact>}
      <Fact name="Keeps">{Math.round(100 * Math.max(0, 1 - direct - scattered))} %</Fact>
    </Facts>
  );
}
