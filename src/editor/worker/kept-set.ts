import { newCompileMemo } from '../../scene/compile/compile-scene.ts';
import { readSceneFiles, type SceneFiles } from '../../scene/files/scene-files.ts';
import type { Problem } from '../../scene/problems/problem.ts';
import { type Corrections, correctionsFrom } from '../../scene/readings/corrections.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';
import { type DocumentChanges, withChanges } from './document-changes.ts';

export type BesideFiles = ReadonlyMap<string, Uint8Array>;

/** The scene that a desk was last told of, and what one question can take over from the one before. */
export interface KeptSet {
  /** Takes what is new and returns the whole document, before any setup. */
  take(changes: DocumentChanges, beside: BesideFiles | undefined): SceneDocument;
  beside(): BesideFiles;
  filesOf(
    shown: SceneDocument,
  ): Promise<{ readonly files: SceneFiles; readonly problems: readonly Problem[] }>;
  /** What the night's readings say; null without any. */
  correctionsOf(base: SceneDocument): Promise<Corrections | null>;
  readonly memo: ReturnType<typeof newCompileMemo>;
}

export function newKeptSet(): KeptSet {
  const memo = newCompileMemo();
  let document: SceneDocument | null = null;
  let beside: BesideFiles = new Map();
  let filesRead: { key: readonly unknown[]; files: SceneFiles; problems: readonly Problem[] } | undefined;
  let corrected: { key: readonly unknown[]; corrections: Corrections | null } | undefined;

  /** Files are read again only when a head, a solid or the files themselves have changed. */
  const filesOf = async (shown: SceneDocument) => {
    const key = [shown.heads, shown.solids, beside];
    if (!filesRead || filesRead.key.some((entry, i) => entry !== key[i])) {
      filesRead = { key, ...(await readSceneFiles(shown, readerOf(beside))) };
    }
    return filesRead;
  };

  return {
    memo,
    take(changes, newBeside) {
      document = withChanges(document, changes);
      if (newBeside) beside = newBeside;
      return document;
    },
    beside: () => beside,
    filesOf,
    /** Worked out again only when something they rest on has changed. */
    async correctionsOf(base) {
      if (!base.readings?.length) return null;
      const { title, notes, setups, cameras, ...matters } = base;
      const key = [cameras?.[0], beside, ...Object.values(matters)];
      const known =
        corrected?.key.length === key.length && corrected.key.every((entry, i) => entry === key[i]);
      if (!corrected || !known) {
        corrected = { key, corrections: correctionsFrom(base, (await filesOf(base)).files) };
      }
      return corrected.corrections;
    },
  };
}

/** Reads the files that came with the scene. */
export function readerOf(beside: BesideFiles) {
  return async (name: string) => {
    const bytes = beside.get(name);
    if (!bytes) throw new Error('not among the files that were opened; open the scene together with it');
    return bytes;
  };
}
