/**
 * The smallest change that does it: the first s in (0, 1] at which f(s) reaches `target` from below, to 1e-4 of the whole
 * way. Looks at `steps` even places first, because light along a lamp's way need not rise steadily (something may shade it),
 * then halves. Null when none of them reaches it.
 */
export function firstCrossing(f: (s: number) => number, target: number, steps: number): number | null {
  let low = 0;
  for (let i = 1; i <= steps; i++) {
    let high = i / steps;
    if (f(high) < target) {
      low = high;
      continue;
    }
    while (high - low > 1e-4) {
      const middle = (low + high) / 2;
      if (f(middle) < target) low = middle;
      else high = middle;
    }
    return high;
  }
  return null;
}
