import { distance } from 'fastest-levenshtein';

/** The known name a slip of the finger or a forgotten unit away from the given one, if there is one. */
export function nearestName(given: string, known: Iterable<string>): string | undefined {
  if (given.length > 100) return undefined;
  const plain = given.toLowerCase();
  let best: string | undefined;
  let least = given.length < 3 ? 1 : Math.max(2, Math.floor(given.length / 2));
  for (const name of known) {
    if (name.toLowerCase().startsWith(`${plain}_`)) return name;
    const d = distance(plain, name.toLowerCase());
    if (d <= least && (best === undefined || d < least)) {
      best = name;
      least = d;
    }
  }
  return best;
}
