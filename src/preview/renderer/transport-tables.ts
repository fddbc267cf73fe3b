import type { Tracer } from '../../core/transport/tracer.ts';
import { struct, writeStruct } from '../pack/struct.ts';
import { newTexels, type Texels } from '../pack/texels.ts';

/** A cone round a lamp's axis outside of which it shines less than a share of its peak; a cosine above 1 where there is none. */
export const LIT_CONE = struct('LitCone', { apex: 'vec3', cosine: 'float', axis: 'vec3' });

/** A lamp that is alight: its index, its peak at full level, roughly, where it is bright and where it shines at all. */
export const LIT_LAMP = struct('LitLamp', { bright: LIT_CONE, lit: LIT_CONE, lamp: 'int', peak_cd: 'float' });

/** A flat glossy face that may throw lamp light. */
export const MIRROR_FACE = struct('MirrorFace', {
  centre: 'vec3',
  alpha: 'float',
  u: 'vec3',
  surface: 'int',
  v: 'vec3',
  oneSided: 'bool',
  n: 'vec3',
  /** 0 of a metal, whose n and k are those of green, which stands for all in choosing. */
  coatIor: 'float',
  halfSize: 'vec2',
  metalNK: 'vec2',
});

/** A lamp and such a face; where the lamp's centre stands in the face's own axes. */
export const MIRROR_PAIR = struct('MirrorPair', {
  lampAt: 'vec3',
  lampRadius_m: 'float',
  lamp: 'int',
  /** Its peak at full level, roughly. */
  peak_cd: 'float',
  /** Its place among those that are alight. */
  lit: 'int',
  face: 'int',
});

/** First pair of a part's faces, and how many pairs they have. */
export const PAIR_RANGE = struct('PairRange', { first: 'int', count: 'int' });

/** A pane that scatters, as a sheet whose points can be chosen. */
export const PANE_SHEET = struct('PaneSheet', {
  centre: 'vec3',
  area_m2: 'float',
  u: 'vec3',
  pane: 'int',
  v: 'vec3',
  part: 'int',
  n: 'vec3',
  halfSize: 'vec2',
});

/** What the core's tracer works out once for a model, as texels, and where each list stands in them: count and first texel. */
export interface TransportTables {
  readonly texels: Texels;
  readonly lists: Readonly<Record<TransportList, readonly [count: number, firstTexel: number]>>;
}

export type TransportList =
  | 'litLampsAt'
  | 'mirrorFacesAt'
  | 'mirrorPairsAt'
  | 'pairRangesAt'
  | 'paneSheetsAt';

const NO_CONE = { apex: [0, 0, 0], axis: [0, 0, 1], cosine: 2 } as const;

export function transportTables(tracer: Tracer): TransportTables {
  const { litLamps, mirrors, scatterers, model } = tracer;
  const faces = [...new Set(mirrors.map(({ face }) => face))];
  const faceIndex = new Map(faces.map((face, i) => [face, i]));
  const litIndex = new Map(litLamps.map((lamp, i) => [lamp, i]));
  const surfaceOf = (part: number) => model.geometry.materials[part]!;
  const coneOf = (cones: Tracer['litCones'], lamp: number) => {
    const cone = cones[lamp];
    if (!cone) return NO_CONE;
    const [x, y, z] = cone.apex_m;
    const [a, b, c] = cone.axis;
    return { apex: [x!, y!, z!], axis: [a!, b!, c!], cosine: cone.cosine } as const;
  };
  // Pairs of one part follow one another, for the tracer finds faces part by part.
  const ranges: { first: number; count: number }[] = [];
  mirrors.forEach(({ face: { part } }, i) => {
    while (ranges.length <= part) ranges.push({ first: i, count: 0 });
    ranges[part]!.count++;
  });
  ranges.reduce((first, range) => {
    range.first = first;
    return first + range.count;
  }, 0);

  const sizes: Record<TransportList, readonly [count: number, each: number]> = {
    litLampsAt: [litLamps.length, LIT_LAMP.texelCount],
    mirrorFacesAt: [faces.length, MIRROR_FACE.texelCount],
    mirrorPairsAt: [mirrors.length, MIRROR_PAIR.texelCount],
    pairRangesAt: [ranges.length, PAIR_RANGE.texelCount],
    paneSheetsAt: [scatterers.length, PANE_SHEET.texelCount],
  };
  let used = 0;
  const lists = Object.fromEntries(
    Object.entries(sizes).map(([list, [count, each]]) => {
      const first = used;
      used += count * each;
      return [list, [count, first] as const];
    }),
  ) as unknown as TransportTables['lists'];
  const texels = newTexels(used);
  const { data } = texels;
  const place = (list: TransportList, i: number) => lists[list][1] + i * sizes[list][1];

  litLamps.forEach((lamp, i) => {
    const bright = coneOf(tracer.brightCones, lamp);
    const lit = coneOf(tracer.litCones, lamp);
    writeStruct(
      LIT_LAMP,
      { bright, lit, lamp, peak_cd: tracer.peak_cd[lamp]! },
      data,
      place('litLampsAt', i),
    );
  });
  faces.forEach((face, i) => {
    const { centre_m: centre, u, v, n, halfU_m, halfV_m, oneSided, optics, part } = face;
    const values = {
      centre,
      u,
      v,
      n,
      oneSided,
      alpha: optics.alpha,
      surface: surfaceOf(part),
      halfSize: [halfU_m, halfV_m],
      coatIor: optics.kind === 'coated' ? optics.coatIor : 0,
      metalNK: [optics.metalN[1]!, optics.metalK[1]!],
    } as const;
    writeStruct(MIRROR_FACE, values, data, place('mirrorFacesAt', i));
  });
  mirrors.forEach(({ lamp, face, lampRadius_m, lampU_m, lampV_m, lampN_m }, i) => {
    const values = {
      lampAt: [lampU_m, lampV_m, lampN_m],
      lampRadius_m,
      lamp,
      peak_cd: tracer.peak_cd[lamp]!,
      lit: litIndex.get(lamp)!,
      face: faceIndex.get(face)!,
    } as const;
    writeStruct(MIRROR_PAIR, values, data, place('mirrorPairsAt', i));
  });
  ranges.forEach((range, i) => {
    writeStruct(PAIR_RANGE, range, data, place('pairRangesAt', i));
  });
  scatterers.forEach(({ part, pane, placement, halfSize_m, area_m2 }, i) => {
    const { origin_m: centre, x: u, y: v, z: n } = placement;
    const values = { centre, u, v, n, area_m2, pane, part, halfSize: halfSize_m };
    writeStruct(PANE_SHEET, values, data, place('paneSheetsAt', i));
  });
  return { texels, lists };
}
