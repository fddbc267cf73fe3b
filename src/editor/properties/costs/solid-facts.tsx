import type { Solid } from '../../../scene/schema/solid.ts';
import { lengthText } from '../../figures/length-text.ts';
import { useTaste } from '../desk.tsx';
import type { FactsProps } from '../field.ts';
import { useThing } from '../use-thing.ts';
import { Fact, Facts } from './facts.tsx';

/** How high a solid reaches, where that is plain from its figures. */
export function SolidFacts({ id }: FactsProps) {
  const solid = useThing<Solid>(id);
  const { lengths } = useTaste();
  const top_m = solid && topOf_m(solid);
  if (top_m === undefined) return null;
  return (
    <Facts>
      <Fact name="Top at">{lengthText(top_m, lengths)}</Fact>
    </Facts>
  );
}

/** Of what stands upright; undefined where it is tilted or its figures do not say. */
export function topOf_m(solid: Solid): number | undefined {
  const [tilt, , bank] = solid.rotation_deg ?? [0, 0, 0];
  const y = solid.position_m[1];
  if (solid.shape === 'sphere') return y + solid.radius_m;
  if (tilt !== 0 || bank !== 0) return undefined;
  switch (solid.shape) {
    case 'box':
    case 'panel':
    case 'pane':
      return y + solid.size_m[1] / 2;
    case 'cylinder':
      return y + solid.height_m / 2;
    case 'vehicle':
      return y + solid.size_m[1];
    case 'capsule':
    case 'mesh':
      return undefined;
  }
}
