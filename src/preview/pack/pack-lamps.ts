import type { Face } from '../../core/lamps/face.ts';
import type { Distribution } from '../../core/photometry/distribution.ts';
import type { Emitter } from '../../core/transport/lamp-sight.ts';
import { DISTRIBUTION_KINDS, EMITTER, FACE_SHAPES, LAMP_TEXELS } from './layout.ts';
import { writeStruct } from './struct.ts';
import type { Tables } from './tables.ts';

/** Writes every lamp from a texel on; `rgb` has three numbers a lamp. */
export function packLamps(
  emitters: readonly Emitter[],
  rgb: Float64Array,
  tables: Tables,
  data: Float32Array,
  at: number,
): void {
  emitters.forEach((emitter, i) => {
    const { origin_m: origin, r, t, a, gain } = emitter;
    const texel = at + LAMP_TEXELS * i;
    const face = { shape: FACE_SHAPES.indexOf(emitter.face.shape), size: faceSize(emitter.face) };
    const distribution = distributionValues(emitter, tables);
    writeStruct(EMITTER, { origin, gain, r, t, a, face, distribution }, data, texel);
    data.set(rgb.subarray(3 * i, 3 * i + 3), 4 * (texel + EMITTER.texelCount));
  });
}

function faceSize(face: Face): readonly [number, number] {
  switch (face.shape) {
    case 'disc':
      return [face.radius_m, 0];
    case 'rectangle':
      return face.halfSize_m;
    case 'octagon':
      return [face.apothem_m, 0];
  }
}

function distributionValues({ distribution, beam }: Emitter, tables: Tables) {
  const none = { peak_cd: 0, beam: { candela: 0, stepsPerChord: 0 }, at: 0, verticals: 0, horizontals: 0 };
  const kind = DISTRIBUTION_KINDS.indexOf(kindOf(distribution));
  if (beam) {
    const { candela, stepsPerChord } = beam;
    return { ...none, kind, beam: { candela: tables.place(candela), stepsPerChord } };
  }
  if (distribution.kind !== 'table') return { ...none, kind, peak_cd: distribution.peak_cd };
  const { vertical_deg, horizontal_deg, candela } = distribution;
  return {
    ...none,
    kind,
    at: tables.place(vertical_deg, horizontal_deg, candela),
    verticals: vertical_deg.length,
    horizontals: horizontal_deg.length,
  };
}

function kindOf(distribution: Distribution): (typeof DISTRIBUTION_KINDS)[number] {
  return distribution.kind === 'table' ? distribution.goniometry : distribution.kind;
}
