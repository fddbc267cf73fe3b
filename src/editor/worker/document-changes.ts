import type { SceneDocument } from '../../scene/schema/document.ts';

/** The parts of a document that are not those of the one before: a drag sends its lamps, not all meshes and files. */
export interface DocumentChanges {
  readonly set: Partial<SceneDocument>;
  readonly kept: readonly string[];
}

/** Parts count as unchanged when they are the same object: edits share what they do not touch. */
export function changesSince(before: SceneDocument | null, now: SceneDocument): DocumentChanges {
  const kept = Object.keys(now).filter((key) => before && partOf(before, key) === partOf(now, key));
  const set = Object.fromEntries(Object.entries(now).filter(([key]) => !kept.includes(key)));
  return { set, kept };
}

export function withChanges(before: SceneDocument | null, { set, kept }: DocumentChanges): SceneDocument {
  const shared = Object.fromEntries(kept.map((key) => [key, before && partOf(before, key)]));
  return { ...shared, ...set } as SceneDocument;
}

function partOf(document: SceneDocument, key: string): unknown {
  return document[key as keyof SceneDocument];
}
