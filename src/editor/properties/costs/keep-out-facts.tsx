import type { Site } from '../../../scene/schema/site.ts';
import { lengthText } from '../../figures/length-text.ts';
import { useTaste } from '../desk.tsx';
import type { FactsProps } from '../field.ts';
import { useThing } from '../use-thing.ts';
import { Fact, Facts } from './facts.tsx';

type Area = NonNullable<Site['keepOut']>[number];

/** How long the edge of an area is. */
export function KeepOutFacts({ id }: FactsProps) {
  const area = useThing<Area>(id);
  const { lengths } = useTaste();
  if (!area) return null;
  const { outline_m } = area;
  const edge_m = outline_m.reduce((sum, [x, z], i) => {
    const [nextX, nextZ] = outline_m[(i + 1) % outline_m.length]!;
    return sum + Math.hypot(nextX - x, nextZ - z);
  }, 0);
  return (
    <Facts>
      <Fact name="Edge">
        {lengthText(edge_m, lengths)}, {outline_m.length} corners
      </Fact>
    </Facts>
  );
}
