import { readFileSync } from 'node:fs';
import { openScene } from '../../../src/scene/file/open-scene.ts';

/** The demo, as it is opened. */
export const quay = openScene(readFileSync('scenes/night-quay.json', 'utf8')).document!;
