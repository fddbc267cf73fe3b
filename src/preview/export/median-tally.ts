/** Classes an octave: the median is known to half a class, about 1 %. */
const CLASSES_AN_OCTAVE = 32;
const LEAST = 2 ** -24;
const OCTAVES = 32;

/** The median of more numbers than are kept: counts of classes that are as many to every octave. */
export interface MedianTally {
  /** Numbers from 2⁻²⁴ to 2⁸; what lies beyond counts at the nearer end. */
  add(values: readonly number[]): void;
  /** Null before the first number. */
  median(): number | null;
}

export function newMedianTally(): MedianTally {
  const counts = new Float64Array(CLASSES_AN_OCTAVE * OCTAVES);
  let total = 0;
  const classOf = (value: number) => {
    const at = Math.floor(Math.log2(Math.max(LEAST, value) / LEAST) * CLASSES_AN_OCTAVE);
    return Math.min(counts.length - 1, at);
  };
  return {
    add(values) {
      for (const value of values) counts[classOf(value)]!++;
      total += values.length;
    },
    median() {
      if (total === 0) return null;
      let below = 0;
      const found = counts.findIndex((count) => {
        below += count;
        return 2 * below > total;
      });
      return LEAST * 2 ** ((found + 0.5) / CLASSES_AN_OCTAVE);
    },
  };
}
