import { nonNegative } from '../units/quantity.ts';

/**
 * Transmission of neutral density, a net or a scrim that costs `loss_stops`: 2^−stops, the same at every wavelength.
 * A density D is D·log₂10 = 3.32·D stops, so ND 0.3 is nominally 1 stop (0.997).
 * RangeError when the loss is negative: a filter cannot add light.
 */
export function neutralTransmission(loss_stops: number): number {
  return 2 ** -nonNegative(loss_stops, 'loss of a neutral filter in stops');
}
