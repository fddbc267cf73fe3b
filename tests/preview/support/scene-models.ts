import { fileURLToPath } from 'node:url';
import { openSet } from '../../../src/cli/opened-set.ts';
import type { LightModel } from '../../../src/core/light-model/light-model.ts';

/** The scenes that come with the product. */
export const SCENES = [
  'apron-flank',
  'lamp-and-card',
  'loading-dock',
  'night-quay',
  'shopfront-rain',
  'test-room',
] as const;

/** The light model of one of them. */
export async function sceneModel(name: (typeof SCENES)[number]): Promise<LightModel> {
  const path = fileURLToPath(new URL(`../../../scenes/${name}.json`, import.meta.url));
  const silent = { out: () => {}, err: () => {} };
  return (await openSet(path, {}, silent)).model;
}
