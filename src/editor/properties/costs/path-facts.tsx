import type { Path } from '../../../scene/schema/path.ts';
import { lengthText } from '../../figures/length-text.ts';
import { useTaste } from '../desk.tsx';
import type { FactsProps } from '../field.ts';
import { useThing } from '../use-thing.ts';
import { Fact, Facts } from './facts.tsx';

/** How far and how fast a path goes. */
export function PathFacts({ id }: FactsProps) {
  const path = useThing<Path>(id);
  const { lengths } = useTaste();
  if (!path) return null;
  const legs = path.points.slice(1).map((point, i) => {
    const before = path.points[i]!;
    const length_m = Math.hypot(...point.position_m.map((v, axis) => v - before.position_m[axis]!));
    return { length_m, speed_m_s: length_m / (point.t_s - before.t_s) };
  });
  const whole_m = legs.reduce((sum, leg) => sum + leg.length_m, 0);
  const fastest = Math.max(0, ...legs.map((leg) => leg.speed_m_s));
  const time_s = path.points.at(-1)!.t_s - path.points[0]!.t_s;
  return (
    <Facts>
      <Fact name="Goes" note="a walk is 1.4 m/s">
        {lengthText(whole_m, lengths)} in {Number(time_s.toFixed(1))} s, at most {fastest.toFixed(1)} m/s
      </Fact>
    </Facts>
  );
}
