/**
 * What a meter's receptor makes of light from a direction at angle θ to where it points.
 * Flat: the cosine law, nothing from behind. Dome: (1 + cos θ)/2, the hemispherical receptor, half at 90°.
 * Both are relative to light from straight ahead.
 */
export type Receptor = 'dome' | 'flat';

export function flatResponse(cosTheta: number): number {
  return Math.max(0, cosTheta);
}

export function domeResponse(cosTheta: number): number {
  return (1 + cosTheta) / 2;
}
