import { freshId, freshName, takenIds } from '../../scene/building/fresh-names.ts';
import { applyCommand } from '../../scene/commands/apply-command.ts';
import type { Problem } from '../../scene/problems/problem.ts';
import { choose } from '../store/choose.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { endGesture } from '../store/edits.ts';
import type { BesideFiles, ReadingDesk } from '../worker/reading-desk.ts';

/** Where and of what a mesh stands until it is told otherwise. */
const POSITION_m = [0, 0, 0] as const;
const MATERIAL = 'concrete';
const LONGEST_NAME = 60;

/**
 * Puts a mesh file (glTF, metres, y up) into the scene as a solid, as one step, and chooses it. Returns why not, where the
 * file cannot be used.
 */
export async function addMesh(
  store: EditorStore,
  desk: Pick<ReadingDesk, 'open'>,
  name: string,
  bytes: Uint8Array,
): Promise<readonly Problem[]> {
  const { scene } = store.getState();
  if (!scene) return [];
  const file = fileNameFor(scene.beside, name, bytes);
  const word = stemOf(name).slice(0, LONGEST_NAME);
  const thing = {
    id: freshId(takenIds(scene.document), word),
    name: freshName(scene.document, word),
    shape: 'mesh',
    position_m: POSITION_m,
    material: MATERIAL,
    file,
  };
  const trial = { keyfall: 1, title: name, solids: [thing] };
  const opened = await desk.open(JSON.stringify(trial), new Map([[file, bytes]]));
  if (!opened.document) return opened.problems;

  // The scene may have moved on while the file was read.
  endGesture(store);
  const now = store.getState().scene ?? scene;
  const applied = applyCommand(now.document, { do: 'add', to: 'solids', thing });
  if (applied.problems) return applied.problems;
  store.setState({
    scene: { document: applied.document, beside: new Map([...now.beside, [file, bytes]]) },
    step: `Add ${thing.name}`,
    refusedEdit: null,
  });
  choose(store, [thing.id]);
  return [];
}

/** The file's own name, unless another file beside the scene has it already. */
function fileNameFor(beside: BesideFiles, name: string, bytes: Uint8Array): string {
  const there = beside.get(name);
  if (!there || sameBytes(there, bytes)) return name;
  const extension = name.slice(stemOf(name).length);
  for (let n = 2; ; n++) {
    const other = `${stemOf(name)}-${n}${extension}`;
    if (!beside.has(other)) return other;
  }
}

function stemOf(name: string): string {
  return name.replace(/\.[^.]*$/, '');
}

export function sameBytes(one: Uint8Array, other: Uint8Array): boolean {
  return one.byteLength === other.byteLength && one.every((byte, i) => byte === other[i]);
}
