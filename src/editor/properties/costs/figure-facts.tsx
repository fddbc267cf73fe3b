import { figureLandmarks } from '../../../core/geometry/figure-landmarks.ts';
import { figureSpec } from '../../../scene/compile/figure-shapes.ts';
import type { Figure } from '../../../scene/schema/figure.ts';
import { lengthText } from '../../figures/length-text.ts';
import { useTaste } from '../desk.tsx';
import type { FactsProps } from '../field.ts';
import { useThing } from '../use-thing.ts';
import { Fact, Facts } from './facts.tsx';

/** Where a meter is held to a figure's face. */
export function FigureFacts({ id }: FactsProps) {
  const figure = useThing<Figure>(id);
  const { lengths } = useTaste();
  if (!figure) return null;
  const [x, y, z] = figureLandmarks(figureSpec(figure)).face.point_m;
  const length = (length_m: number) => lengthText(length_m, lengths);
  return (
    <Facts>
      <Fact name="Face" note="where a meter is held">
        {length(y)} up, at x {length(x)}, z {length(z)}
      </Fact>
    </Facts>
  );
}
