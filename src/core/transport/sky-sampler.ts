import { transmittance } from '../geometry/ray-query.ts';
import type { LightModel } from '../light-model/light-model.ts';
import { skyThroughHaze } from './haze-regions.ts';
import { domeResponse, flatResponse } from './receptor.ts';
import { clearance_m, type MeterPoint, type SourceSampler } from './source-sample.ts';

/** Farther than any scene reaches: coordinates are within 10 km. */
const HORIZON_m = 1e5;

/**
 * Light of a uniform sky over the upper half of the world. A dome of luminance L gives an open, level, flat receptor
 * E_h = πL, so L = E_h/π; with directions uniform over the hemisphere (density 1/2π)
 *
 *   E = mean of  2π · (E_h/π) · w(θ) · V  =  mean of  2·E_h·w(θ)·V,
 *
 * V being what geometry and haze let through straight. The site's figure is that of the sky without the haze of the night; what
 * haze takes off here, paths that it scatters give back, but for the little that it swallows and throws away upward.
 */
export function skySampler(model: LightModel, skyIlluminance_lx: number, meter: MeterPoint): SourceSampler {
  const [px, py, pz] = meter.position_m;
  const [nx, ny, nz] = meter.facing;
  const clear = clearance_m(0);

  return (u, v, sample) => {
    const y = u;
    const horizontal = Math.sqrt(1 - y * y);
    const x = horizontal * Math.cos(2 * Math.PI * v);
    const z = horizontal * Math.sin(2 * Math.PI * v);
    const through =
      transmittance(model.geometry, px, py, pz, x, y, z, clear, HORIZON_m, model.paneDirect) *
      skyThroughHaze(model, px, py, pz, x, y, z);
    const cosTheta = x * nx + y * ny + z * nz;
    sample.unblockedFlat_lx = 2 * skyIlluminance_lx * flatResponse(cosTheta);
    sample.unblockedDome_lx = 2 * skyIlluminance_lx * domeResponse(cosTheta);
    sample.flat_lx = sample.unblockedFlat_lx * through;
    sample.dome_lx = sample.unblockedDome_lx * through;
    sample.open = through > 0 ? 1 : 0;
  };
}
