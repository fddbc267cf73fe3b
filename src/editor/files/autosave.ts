import { saveScene } from '../../scene/file/save-scene.ts';
import type { Scene } from '../store/editor-state.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { forgetKeptScene, keepScene } from './kept-scene.ts';

const CALM_ms = 400;

/** Keeps the scene in the browser a moment after each change, and at the last when the page is left. */
export function autosave(store: EditorStore, isDemo: (scene: Scene) => boolean): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const keep = () => {
    clearTimeout(timer);
    timer = undefined;
    const { scene } = store.getState();
    if (!scene) return;
    if (isDemo(scene)) {
      forgetKeptScene();
      store.setState({ storageNotice: null });
    } else {
      store.setState({ storageNotice: keepScene(saveScene(scene.document)) });
    }
  };
  store.subscribe((now, before) => {
    if (now.scene === before.scene) return;
    clearTimeout(timer);
    timer = setTimeout(keep, CALM_ms);
  });
  window.addEventListener('pagehide', () => {
    if (timer !== undefined) keep();
  });
}
