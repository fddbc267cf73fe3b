/** A stretch of the line. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

const BISECTIONS = 12;

/**
 * Where something holds between two places: looked at every `step` at most, the edges then found to a four-thousandth of that.
 * A stretch shorter than `step` may go unseen.
 */
export function spansWhere(holds: (x: number) => boolean, from: number, to: number, step: number): Span[] {
  const steps = Math.max(1, Math.ceil((to - from) / step - 1e-9));
  const at = (i: number) => from + ((to - from) * i) / steps;
  const spans: Span[] = [];
  let held = holds(from);
  let begun = from;
  for (let i = 1; i <= steps; i++) {
    const now = holds(at(i));
    if (now === held) continue;
    const edge = edgeBetween(holds, at(i - 1), at(i));
    if (held) spans.push({ from: begun, to: edge });
    begun = edge;
    held = now;
  }
  if (held) spans.push({ from: begun, to });
  return spans;
}

function edgeBetween(holds: (x: number) => boolean, before: number, after: number): number {
  const first = holds(before);
  let [a, b] = [before, after];
  for (let i = 0; i < BISECTIONS; i++) {
    const middle = (a + b) / 2;
    if (holds(middle) === first) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}
