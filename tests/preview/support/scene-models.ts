import { fileURLToPath } from 'node:url';
import { type OpenedSet, openSet } from '../../../src/cli/opened-set.ts';
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

/** One of them as it is planned, not corrected by readings; in a setup where one is named. */
export function openedScene(name: (typeof SCENES)[number], setup?: string): Promise<OpenedSet> {
  const path = fileURLToPath(new URL(`../../../scenes/${name}.json`, import.meta.url));
  return openSet(path, { setup }, { out: () => {}, err: () => {} });
}

/** The light model of one of them. */
export async function sceneModel(name: (typeof SCENES)[number]): Promise<LightModel> {
  return (await openedScene(name)).model;
}
