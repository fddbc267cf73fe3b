import type { Texels } from '../../preview/pack/texels.ts';
import type { PreviewScene } from '../../preview/renderer/preview-scene.ts';

type Textures = Readonly<Record<string, Texels>>;

/** A preview scene without the textures that are as they were in the one sent before: null stands for those. */
export interface SentScene extends Omit<PreviewScene, 'textures'> {
  readonly textures: Readonly<Record<string, Texels | null>>;
}

/** To one who has the textures `before`. */
export function sentScene({ textures, ...scene }: PreviewScene, before: Textures): SentScene {
  const changed = Object.entries(textures).map(([name, texels]) => [
    name,
    before[name] === texels ? null : texels,
  ]);
  return { ...scene, textures: Object.fromEntries(changed) };
}

/** By one who has the textures `before`. */
export function receivedScene({ textures, ...scene }: SentScene, before: Textures): PreviewScene {
  const whole = Object.entries(textures).map(([name, texels]) => [name, texels ?? before[name]!]);
  return { ...scene, textures: Object.fromEntries(whole) };
}
