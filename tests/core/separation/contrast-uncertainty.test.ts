import { describe, expect, it } from 'vitest';
import { contrastInputUncertainty_stops } from '../../../src/core/separation/contrast-uncertainty.ts';
import {
  BOUNCE,
  HAZE,
  lampBin,
  newLightBins,
  type Sender,
  skyBin,
} from '../../../src/core/transport/light-bins.ts';
import { isotropic, lampAt } from '../../support/light-models.ts';

const lamp = (head: string, photometryUncertainty_stops: number) =>
  lampAt([0, 0, 0], [1, 0, 0], isotropic(1), undefined, { head, photometryUncertainty_stops });
const bins = (
  count: number,
  parts: readonly (readonly [lamp: number, sender: Sender, amount: number])[],
  sky = 0,
) => {
  const made = newLightBins(count);
  for (const [l, sender, amount] of parts) made.fill(amount, lampBin(l, sender), lampBin(l, sender) + 3);
  made.fill(sky, skyBin(count), skyBin(count) + 3);
  return made;
};

describe('input uncertainty of a contrast', () => {
  it('is half a stop of reflectances where one lamp lights both sides', () => {
    // derived: equal shares drop out
    const both = [lamp('a', 1)];
    const stops = contrastInputUncertainty_stops(both, bins(1, [[0, BOUNCE, 2]]), bins(1, [[0, BOUNCE, 9]]));
    expect(stops).toBeCloseTo(0.5, 12);
  });

  it('counts lamps that light one side only, in full, and heads of a kind together', () => {
    // derived: √(0.5² + 1² + (2/3)²) = 1.302 with two heads; of one head 1 − ⅔ wrong the same way: √(0.5² + (1 − 1)²) = 0.5
    const inside = bins(2, [[0, BOUNCE, 1]]);
    const outside = bins(2, [[1, BOUNCE, 1]]);
    expect(contrastInputUncertainty_stops([lamp('a', 1), lamp('b', 2 / 3)], inside, outside)).toBeCloseTo(
      1.302,
      3,
    );
    expect(contrastInputUncertainty_stops([lamp('a', 1), lamp('a', 1)], inside, outside)).toBeCloseTo(
      0.5,
      12,
    );
  });

  it('counts glow of haze and sky for a stop each', () => {
    // derived: half of the inside is glow: √(0.5² + 0.5²) = 0.707; all of the outside is sky: √(0.5² + 1² + 1²) = 1.5
    const one = [lamp('a', 1)];
    const hazy = bins(1, [
      [0, BOUNCE, 1],
      [0, HAZE, 1],
    ]);
    expect(contrastInputUncertainty_stops(one, hazy, bins(1, [[0, BOUNCE, 1]]))).toBeCloseTo(Math.SQRT1_2, 3);
    expect(contrastInputUncertainty_stops(one, bins(1, [[0, BOUNCE, 1]]), bins(1, [], 1))).toBeCloseTo(
      1.5,
      12,
    );
  });
});
