/**
 * How well a thing answers to what is typed, 0 not at all: every word typed must begin a word of its name, of the words it is
 * also found by, or of what is said about it, and the earlier of these counts for more, the first word most. Case and accents
 * do not matter.
 */
export function foundBy(typed: string, name: string, also: readonly string[], about: string): number {
  const wanted = wordsOf(typed);
  if (wanted.length === 0) return 1;
  const named = wordsOf(name);
  const places: readonly (readonly [words: readonly string[], worth: number])[] = [
    [named.slice(0, 1), 1],
    [named, 0.9],
    [also.flatMap(wordsOf), 0.6],
    [wordsOf(about), 0.2],
  ];
  let worth = 0;
  for (const word of wanted) {
    const place = places.find(([words]) => words.some((one) => one.startsWith(word)));
    if (!place) return 0;
    worth += place[1];
  }
  return worth / wanted.length;
}

function wordsOf(text: string): string[] {
  return text
    .normalize('NFD')
    .replace(/\p{Mn}/gu, '')
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '');
}
