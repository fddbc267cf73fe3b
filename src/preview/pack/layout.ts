import { struct } from './struct.ts';
import type { Texels } from './texels.ts';

/**
 * Where everything of a light model lies on the graphics card, in three textures of float texels whose rows are
 * ROW_TEXELS long, texel i at column i mod ROW_TEXELS of row i / ROW_TEXELS:
 *
 *   geometryTexels   what bodies are there; changes when something is built or moved
 *     nodes          NODE of each node of the hierarchy, in its order (threaded: see core/geometry/bvh.ts)
 *     shapes         BODY, then BELONGING, of each shape in the order of the hierarchy's leaves
 *     openings       left, bottom, right, top of each panel's openings, panel after panel
 *   lightTexels      what lights and surfaces there are; changes with every touch of a lamp
 *     surfaces       SURFACE_OPTICS of each material as it is, then of the same blurred
 *     panes          PANE of each pane
 *     lamps          EMITTER of each lamp, then red, green, blue of its light at luminance 1
 *     lampOnSurface  red, green, blue of lamp light off a surface's base, lamp after lamp, in each surface after surface
 *     hazeRegions    HAZE_REGION of each box of haze; one round everything where haze is everywhere
 *   tableTexels      curves that the others point into, by the number of an entry, four entries a texel; changes with
 *                    heads and materials
 *     a coat         E at each node
 *     a pane         its excess at each node
 *     a beam         candela at each step of the chord
 *     a table        vertical angles, horizontal angles, candela of plane after plane
 *
 * Whole numbers are stored as floats. A section's first texel and its count are in the uniforms `sectionAt` and
 * `sectionCount`, at its place in SECTIONS. GLSL reads structs by functions made from the same descriptions (struct.ts).
 */
export const SECTIONS = [
  'nodes',
  'shapes',
  'openings',
  'surfaces',
  'panes',
  'lamps',
  'lampOnSurface',
  'hazeRegions',
] as const;

export type Section = (typeof SECTIONS)[number];

/** Part of a light model as it goes to the card: textures by the name of their sampler, sections, further uniforms. */
export interface Packed {
  readonly textures: Readonly<Record<string, Texels>>;
  readonly sections: Readonly<Partial<Record<Section, { readonly at: number; readonly count: number }>>>;
  readonly uniforms: Readonly<Record<string, readonly number[]>>;
}

/** All uniforms of several parts together, those that say where their sections are included. */
export function uniformsOf(...parts: readonly Packed[]): Record<string, readonly number[]> {
  const found = SECTIONS.map((section) => parts.flatMap((part) => part.sections[section] ?? [])[0]);
  return {
    ...Object.assign({}, ...parts.map((part) => part.uniforms)),
    sectionAt: found.map((place) => place?.at ?? 0),
    sectionCount: found.map((place) => place?.count ?? 0),
  };
}

/** `leaf` is LEAF_SHAPES · (the first shape's place) + (how many shapes), 0 for an inner node. */
export const NODE = struct('Node', { low: 'vec3', skip: 'int', high: 'vec3', leaf: 'int' });

/** More than a leaf ever holds. */
export const LEAF_SHAPES = 4;

/**
 * The numbers of core/geometry/shape-record.ts: rows of the rotation world → local (a triangle's corners), the local
 * origin (a sphere's centre, a triangle's normal), and what there is of parameters: p, q, r.
 * `kind` is its kind code + KINDS · the number of openings.
 */
export const BODY = struct('Body', {
  x: 'vec3',
  p: 'float',
  y: 'vec3',
  q: 'float',
  z: 'vec3',
  r: 'float',
  origin: 'vec3',
  kind: 'int',
});

/** More than there are kinds of shape. */
export const KINDS = 8;

/** Index of the part; its material, or −1 − its pane; its first opening; its owner. */
export const BELONGING = struct('Belonging', {
  part: 'int',
  substance: 'int',
  openingStart: 'int',
  owner: 'int',
});

export const SHAPE_TEXELS = BODY.texelCount + BELONGING.texelCount;

/** As shaders/surface-optics.ts has it; `albedo` is the first entry of the coat's table. */
export const SURFACE_OPTICS = struct('SurfaceOptics', {
  kind: 'int',
  glossy: 'bool',
  baseRgb: 'vec3',
  baseLuminance: 'float',
  alpha: 'float',
  coatIor: 'float',
  metalN: 'vec3',
  metalK: 'vec3',
  albedo: 'int',
  baseScale: 'float',
});

/** As shaders/surface-optics.ts counts them. */
export const SURFACE_KINDS = ['matt', 'coated', 'metal'] as const;

export const SURFACE_TEXELS = 2 * SURFACE_OPTICS.texelCount;

/** As shaders/pane-lobe.ts has it; `excess` is the first entry of its table. */
export const PANE_LOBE = struct('PaneLobe', { exponent: 'float', normalisation: 'float', excess: 'int' });

export const PANE = struct('Pane', { direct: 'float', scattered: 'float', lobe: PANE_LOBE });

/** As shaders/face.ts has it. */
export const FACE = struct('Face', { shape: 'int', size: 'vec2' });

/** As shaders/face.ts counts them. */
export const FACE_SHAPES = ['disc', 'rectangle', 'octagon'] as const;

/** As shaders/beam-table.ts has it. */
export const BEAM_TABLE = struct('BeamTable', { candela: 'int', stepsPerChord: 'float' });

/** As shaders/intensity.ts has it. */
export const DISTRIBUTION = struct('Distribution', {
  kind: 'int',
  peak_cd: 'float',
  beam: BEAM_TABLE,
  at: 'int',
  verticals: 'int',
  horizontals: 'int',
});

/** As shaders/intensity.ts counts them. */
export const DISTRIBUTION_KINDS = ['lambert', 'beam', 'A', 'B', 'C'] as const;

/** Metres, unit vectors; `gain` is the lamp's level times what its filters pass. */
export const EMITTER = struct('Emitter', {
  origin: 'vec3',
  gain: 'float',
  r: 'vec3',
  t: 'vec3',
  a: 'vec3',
  face: FACE,
  distribution: DISTRIBUTION,
});

/** The lamp's colour has the last texel to itself. */
export const LAMP_TEXELS = EMITTER.texelCount + 1;

/** As shaders/haze-region.ts has it. */
export const HAZE_REGION = struct('HazeRegion', {
  origin: 'vec3',
  x: 'vec3',
  y: 'vec3',
  z: 'vec3',
  halfSize: 'vec3',
});
