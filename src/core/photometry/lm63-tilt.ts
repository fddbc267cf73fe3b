import type { NumberReader } from './number-reader.ts';
import type { Place } from './number-token.ts';
import { refuse } from './photometry-error.ts';
import { checkedCount } from './table-reading.ts';
import type { LampTilt } from './tilt.ts';

/**
 * The block after TILT=INCLUDE: geometry, number of pairs, angles, factors.
 * @throws PhotometryError TILT_SHORT where it does not hold the pairs it announces, BAD_TILT
 */
export function readLm63Tilt(reader: NumberReader): LampTilt {
  const geometry = reader.next('the lamp-to-luminaire geometry');
  if (geometry !== 1 && geometry !== 2 && geometry !== 3) {
    refuse(
      reader.place,
      'BAD_TILT',
      `${geometry} as the lamp-to-luminaire geometry`,
      '1, 2 or 3',
      'Correct it, or write TILT=NONE and leave the tilt block out.',
    );
  }
  const pairs = checkedCount(
    reader.next('the number of tilt pairs'),
    1,
    reader.place,
    'the number of tilt pairs',
  );
  const countPlace = reader.place;
  if (reader.ahead().count < 2 * pairs) refuseShortTilt(countPlace, pairs, 'the end of the file');
  const angles_deg = new Float64Array(pairs);
  for (let i = 0; i < pairs; i++) {
    const angle = reader.next('a tilt angle');
    const increases = i === 0 ? angle >= 0 : angle > angles_deg[i - 1]!;
    if (!increases || angle > 180) refuseShortTilt(reader.place, pairs, `${angle} as tilt angle ${i + 1}`);
    angles_deg[i] = angle;
  }
  const factors = new Float64Array(pairs);
  for (let i = 0; i < pairs; i++) {
    const factor = reader.next('a tilt factor');
    if (factor < 0) refuseShortTilt(reader.place, pairs, `${factor} as tilt factor ${i + 1}`);
    factors[i] = factor;
  }
  if (!reader.nextStartsLine()) refuseShortTilt(reader.place, pairs, 'the block ending within a line');
  return { geometry, angles_deg, factors };
}

function refuseShortTilt(place: Place, pairs: number, found: string): never {
  return refuse(
    place,
    'TILT_SHORT',
    found,
    `${pairs} tilt angles, increasing from 0 to at most 180, then ${pairs} factors of 0 or more`,
    'Correct the number of tilt pairs, or complete the tilt block.',
  );
}
