import { saveScene } from '../../scene/file/save-scene.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';

/** Hands the scene to the browser as a file to save. */
export function downloadScene(document: SceneDocument): void {
  const url = URL.createObjectURL(new Blob([saveScene(document)], { type: 'application/json' }));
  const link = window.document.createElement('a');
  link.href = url;
  link.download = `${fileNameOf(document.title)}.json`;
  link.click();
  URL.revokeObjectURL(url);
}

/** A title as a plain file name: letters and digits of any script, the rest as hyphens. */
function fileNameOf(title: string): string {
  const plain = title
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60);
  return plain || 'scene';
}
