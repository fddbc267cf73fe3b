import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { createEditorStore } from '../../../src/editor/store/editor-store.ts';
import { openScene } from '../../../src/scene/file/open-scene.ts';
import { SCENES } from '../../support/command-line.ts';

export function sceneNamed(file: string) {
  return openScene(readFileSync(join(SCENES, file), 'utf8')).document!;
}

export const demo = sceneNamed('night-quay.json');

/** A store with the demo open. */
export function demoStore() {
  const store = createEditorStore();
  store.setState({ scene: { document: demo, beside: new Map() }, openings: 1 });
  return store;
}
