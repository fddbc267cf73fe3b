import type { CandelaTable } from './distribution.ts';
import type { Place } from './number-token.ts';
import { closedCircle, gapWarning, mirrored, type PhotometricPlane } from './photometric-plane.ts';
import { refuse } from './photometry-error.ts';

/**
 * Type C files state a hemisphere or the sphere; types A and B may state a part of the front (LM-63 asks for −90 or
 * 0 to 90, but floodlights are often measured less far), and what lies outside it is dark.
 * @throws PhotometryError BAD_VERTICAL_RANGE
 */
export function checkVerticalRange(
  goniometry: CandelaTable['goniometry'],
  vertical_deg: Float64Array,
  place: Place,
  warnings: string[],
): void {
  const [first, last] = [vertical_deg[0]!, vertical_deg[vertical_deg.length - 1]!];
  const range = `${first} to ${last}`;
  if (goniometry === 'C') {
    if ((first === 0 && (last === 90 || last === 180)) || (first === 90 && last === 180)) return;
    refuse(
      place,
      'BAD_VERTICAL_RANGE',
      `vertical angles ${range}`,
      '0 to 90, 90 to 180 or 0 to 180 for type C',
      'Add the missing angles (with 0 cd where it is dark), or correct the photometric type.',
    );
  }
  if (first < -90 || last > 90) {
    refuse(
      place,
      'BAD_VERTICAL_RANGE',
      `vertical angles ${range}`,
      `angles within -90 to 90 for type ${goniometry}`,
      'Correct the angles or the photometric type: only type C reaches 180.',
    );
  }
  if (first !== -90 || last !== 90) {
    warnings.push(`line ${place.line}: vertical angles ${range}; every direction outside them is dark`);
  }
}

/**
 * The planes of the whole turn: in LM-63 the last horizontal angle tells the symmetry.
 * @throws PhotometryError BAD_HORIZONTAL_RANGE
 */
export function unfoldedTypeC(
  measured: readonly PhotometricPlane[],
  place: Place,
  warnings: string[],
): readonly PhotometricPlane[] {
  const first = measured[0]!.horizontal_deg;
  const last = measured[measured.length - 1]!.horizontal_deg;
  if (measured.length === 1) {
    if (first !== 0) warnings.push(`line ${place.line}: the only plane stands at ${first}; used all round`);
    return [{ horizontal_deg: 0, candela: measured[0]!.candela }];
  }
  if (first === 0 && last === 90) return closedCircle(mirrored(mirrored(measured, 90), 180));
  if (first === 0 && last === 180) return closedCircle(mirrored(measured, 180));
  if (first === 90 && last === 270) return closedCircle(mirrored(measured, 270));
  if (first === 0 && last > 180 && last <= 360) {
    warnings.push(...gapWarning(measured));
    return closedCircle(measured);
  }
  return refuse(
    place,
    'BAD_HORIZONTAL_RANGE',
    `horizontal angles ${first} to ${last}`,
    '0 alone, 0 to 90, 0 to 180, 90 to 270, or 0 to more than 180 and at most 360 for type C',
    'Add the missing planes, or correct the photometric type.',
  );
}

/**
 * From 0 on the two sides are alike (LM-63); otherwise as measured, dark outside.
 * @throws PhotometryError BAD_HORIZONTAL_RANGE
 */
export function unfoldedTypeAB(
  measured: readonly PhotometricPlane[],
  place: Place,
  warnings: string[],
): readonly PhotometricPlane[] {
  const first = measured[0]!.horizontal_deg;
  const last = measured[measured.length - 1]!.horizontal_deg;
  if (measured.length === 1 || first < -90 || first > 0 || last > 90 || last <= 0) {
    refuse(
      place,
      'BAD_HORIZONTAL_RANGE',
      `horizontal angles ${first} to ${last}`,
      '-90 to 90, or 0 to 90 for a symmetrical lamp, in types A and B',
      'Correct the angles or the photometric type.',
    );
  }
  if (last !== 90 || (first !== 0 && first !== -90)) {
    warnings.push(
      `line ${place.line}: horizontal angles ${first} to ${last}; every direction outside them is dark`,
    );
  }
  return first === 0 ? mirrored(measured, 0) : measured;
}
