import type { SeenWall } from '../../scene/building/opening-runs.ts';

/** The edge of a wall as an SVG path: a rectangle whose upper corners may be round. */
export function wallOutline(
  { span_m, height_m, cornerRadius_m: r }: SeenWall,
  toX: (along_m: number) => number,
  toY: (up_m: number) => number,
): string {
  const [left, right] = [toX(-span_m / 2), toX(span_m / 2)];
  const [top, bottom] = [toY(height_m), toY(0)];
  const radius = toX(r) - toX(0);
  const corner = `${radius} ${radius} 0 0 1`;
  return (
    `M${left} ${bottom}V${top + radius}A${corner} ${left + radius} ${top}` +
    `H${right - radius}A${corner} ${right} ${top + radius}V${bottom}Z`
  );
}
