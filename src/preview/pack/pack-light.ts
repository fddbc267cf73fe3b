import type { HazeRegion } from '../../core/haze/haze-region.ts';
import type { Tracer } from '../../core/transport/tracer.ts';
import { HAZE_REGION, LAMP_TEXELS, PANE, type Packed, SURFACE_TEXELS } from './layout.ts';
import { packLamps } from './pack-lamps.ts';
import { packPanes } from './pack-panes.ts';
import { packSurfaces } from './pack-surfaces.ts';
import { writeStruct } from './struct.ts';
import { newTables } from './tables.ts';
import { newTexels } from './texels.ts';

/** Surfaces, panes, lamps, haze and sky as layout.ts has them. */
export function packLight(tracer: Tracer): Packed {
  const { model, emitters, lampRgb, skyRgb, skyLuminance, paneLobes, hazeRegions } = tracer;
  const { surfaces, panes, haze } = model;
  const pairs = emitters.length * surfaces.length;
  const panesAt = surfaces.length * SURFACE_TEXELS;
  const lampsAt = panesAt + panes.length * PANE.texelCount;
  const lampOnSurfaceAt = lampsAt + emitters.length * LAMP_TEXELS;
  const hazeRegionsAt = lampOnSurfaceAt + pairs;
  const lightTexels = newTexels(hazeRegionsAt + hazeRegions.length * HAZE_REGION.texelCount);
  const { data } = lightTexels;
  const tables = newTables();

  packSurfaces(surfaces, tables, data, 0);
  packPanes(panes, paneLobes, tables, data, panesAt);
  packLamps(emitters, lampRgb, tables, data, lampsAt);
  for (let pair = 0; pair < pairs; pair++)
    for (let channel = 0; channel < 3; channel++)
      data[4 * (lampOnSurfaceAt + pair) + channel] = model.lampOnSurface_RGB[3 * pair + channel]!;
  packHazeRegions(hazeRegions, data, hazeRegionsAt);

  return {
    textures: { lightTexels, tableTexels: tables.texels() },
    sections: {
      surfaces: { at: 0, count: surfaces.length },
      panes: { at: panesAt, count: panes.length },
      lamps: { at: lampsAt, count: emitters.length },
      lampOnSurface: { at: lampOnSurfaceAt, count: pairs },
      hazeRegions: { at: hazeRegionsAt, count: hazeRegions.length },
    },
    uniforms: {
      hazeNumbers: haze ? [haze.extinction_per_m, haze.albedo, haze.anisotropy] : [0, 0, 0],
      hazeEverywhere: [haze && haze.regions === null ? 1 : 0],
      skyRadiance: Array.from(skyRgb, (channel) => channel * skyLuminance),
    },
  };
}

function packHazeRegions(regions: readonly HazeRegion[], data: Float32Array, at: number): void {
  regions.forEach(({ placement, halfSize_m: halfSize }, i) => {
    const { origin_m: origin, x, y, z } = placement;
    writeStruct(HAZE_REGION, { origin, x, y, z, halfSize }, data, at + HAZE_REGION.texelCount * i);
  });
}
