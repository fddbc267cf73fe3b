/**
 * Where traced light is gathered: linear RGB by lamp and by what sent it on last, a surface or pane (`BOUNCE`) or the
 * haze (`HAZE`); light that began in the sky in one bin of its own, whatever became of it.
 */
export const BOUNCE = 0;
export const HAZE = 1;
export type Sender = typeof BOUNCE | typeof HAZE;

export type LightBins = Float64Array;

export function newLightBins(lampCount: number): LightBins {
  return new Float64Array(3 * (2 * lampCount + 1));
}

export function lampBin(lamp: number, sender: Sender): number {
  return 3 * (2 * lamp + sender);
}

export function skyBin(lampCount: number): number {
  return 6 * lampCount;
}

/** Luminance of linear RGB with the primaries of Rec. 709. */
export function luminance(r: number, g: number, b: number): number {
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** Adds light, weighed by colour, to a bin. */
export function gather(
  bins: LightBins,
  bin: number,
  r: number,
  g: number,
  b: number,
  light: { readonly r: number; readonly g: number; readonly b: number },
): void {
  bins[bin]! += r * light.r;
  bins[bin + 1]! += g * light.g;
  bins[bin + 2]! += b * light.b;
}
