import { BATCHES, type EdgeLight, newEdgeLight } from '../../../src/core/separation/edge-light.ts';

/** A light that has read this linear RGB (cd/m²), each batch a little off in turn by `spread` of it. */
export function lightOf(rgb: readonly [number, number, number], spread = 0): EdgeLight {
  const light = newEdgeLight(0);
  for (let batch = 0; batch < BATCHES; batch++) {
    const factor = 1 + (batch % 2 === 0 ? spread : -spread);
    for (let c = 0; c < 3; c++) light.rgb[3 * batch + c] = factor * rgb[c]!;
    light.paths[batch] = 1;
  }
  return light;
}

/** One cell that shares glow with nobody. */
export function sideOf(light: EdgeLight) {
  return { lights: [light], near: [[light]], weights: [1] };
}
