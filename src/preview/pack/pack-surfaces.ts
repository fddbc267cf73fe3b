import type { Surface } from '../../core/light-model/light-model.ts';
import type { SurfaceOptics } from '../../core/surfaces/surface-optics.ts';
import { SURFACE_KINDS, SURFACE_OPTICS, SURFACE_TEXELS } from './layout.ts';
import { writeStruct } from './struct.ts';
import type { Tables } from './tables.ts';

/** Writes every surface, as it is and blurred, from a texel on. */
export function packSurfaces(
  surfaces: readonly Surface[],
  tables: Tables,
  data: Float32Array,
  at: number,
): void {
  surfaces.forEach(({ optics, blurred }, i) => {
    const texel = at + SURFACE_TEXELS * i;
    writeStruct(SURFACE_OPTICS, opticsValues(optics, tables), data, texel);
    writeStruct(SURFACE_OPTICS, opticsValues(blurred, tables), data, texel + SURFACE_OPTICS.texelCount);
  });
}

function opticsValues(optics: SurfaceOptics, tables: Tables) {
  const { kind, glossy, baseRgb, baseLuminance, alpha, coatIor, metalN, metalK, albedo, baseScale } = optics;
  return {
    kind: SURFACE_KINDS.indexOf(kind),
    glossy,
    baseRgb: triple(baseRgb),
    baseLuminance,
    alpha,
    coatIor,
    metalN: triple(metalN),
    metalK: triple(metalK),
    albedo: kind === 'coated' ? tables.place(albedo[0]!.E) : 0,
    baseScale,
  };
}

function triple(of: Float64Array): readonly [number, number, number] {
  return [of[0]!, of[1]!, of[2]!];
}
