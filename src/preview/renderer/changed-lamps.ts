import { LAMP_TEXELS, SECTIONS, type Section } from '../pack/layout.ts';
import { earlierIfSame } from '../pack/texels.ts';
import type { PreviewScene } from './preview-scene.ts';

/** Where to look for light is worked out from lamps and bodies: it changes with them and changes no light by itself. */
const SEARCH = /^(litLamps|mirrorFaces|mirrorPairs|pairRanges|paneSheets)At$/;

/**
 * Which lamps, by place, stand, point or are tinted otherwise in another scene: none where the two differ in nothing but
 * gains; null where they differ in more than lamps, or in how many there are.
 */
export function changedLamps(one: PreviewScene, other: PreviewScene): readonly number[] | null {
  const light = lightBesideTables(one);
  if (light !== lightBesideTables(other) || one.gains.length !== other.gains.length) return null;
  const same = (name: string) =>
    earlierIfSame(one.textures[name], other.textures[name]!) === one.textures[name];
  if (!same('geometryTexels') || !same('tableTexels')) return null;
  if (same('lightTexels')) return [];
  const before = one.textures.lightTexels!.data;
  const now = other.textures.lightTexels!.data;
  if (before.length !== now.length) return null;
  const place = (section: Section) => SECTIONS.indexOf(section);
  const { sectionAt, sectionCount } = other.uniforms;
  const lampsAt = 4 * sectionAt![place('lamps')]!;
  const pairsAt = 4 * sectionAt![place('lampOnSurface')]!;
  const pairsEnd = pairsAt + 4 * sectionCount![place('lampOnSurface')]!;
  const surfaces = sectionCount![place('surfaces')]!;
  const changed = new Set<number>();
  for (let i = 0; i < now.length; i++) {
    if (before[i] === now[i]) continue;
    if (i >= lampsAt && i < pairsAt) changed.add(Math.floor((i - lampsAt) / (4 * LAMP_TEXELS)));
    else if (i >= pairsAt && i < pairsEnd) changed.add(Math.floor((i - pairsAt) / (4 * surfaces)));
    else return null;
  }
  return [...changed];
}

function lightBesideTables({ uniforms, features }: PreviewScene): string {
  return JSON.stringify([Object.entries(uniforms).filter(([name]) => !SEARCH.test(name)), features]);
}
