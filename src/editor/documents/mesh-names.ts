import type { SceneDocument } from '../../scene/schema/document.ts';

/** The mesh files that a scene names, each once: they stand beside it. */
export function meshNames(document: SceneDocument): string[] {
  const named = (document.solids ?? []).flatMap((solid) => (solid.shape === 'mesh' ? [solid.file] : []));
  return [...new Set(named)];
}
