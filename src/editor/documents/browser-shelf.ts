import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import { aboutOf, type KeptScene, type KeptWhole, type Shelf } from './shelf.ts';

const NAME = 'keyfall';
const VERSION = 1;

interface Database extends DBSchema {
  scenes: { key: string; value: KeptScene };
  texts: { key: string; value: string };
  handles: { key: string; value: FileSystemFileHandle };
  /** By scene and name: a mesh is written once, not with every change. */
  files: { key: [string, string]; value: Uint8Array };
}

const STORES = ['scenes', 'texts', 'handles', 'files'] as const;

/** The shelf in the browser's own database (IndexedDB). */
export function browserShelf(): Shelf {
  let opening: Promise<IDBPDatabase<Database>> | null = null;
  /** Opened when first needed, and again after the browser closed it or it could not be opened. */
  const database = () => {
    const again = () => {
      opening = null;
    };
    opening ??= openDB<Database>(NAME, VERSION, {
      upgrade: (db) => {
        for (const store of STORES) db.createObjectStore(store);
      },
      terminated: again,
      blocking: (_now, _next, event) => {
        (event.target as IDBDatabase).close();
        again();
      },
    }).catch((error) => {
      again();
      throw error;
    });
    return opening;
  };

  return {
    async list() {
      const scenes = await (await database()).getAll('scenes');
      return scenes.sort((one, other) => other.changed_ms - one.changed_ms);
    },
    async read(id): Promise<KeptWhole | null> {
      const transaction = (await database()).transaction(STORES);
      const files = transaction.objectStore('files');
      const range = filesOf(id);
      const [about, text, handle, names, bytes] = await Promise.all([
        transaction.objectStore('scenes').get(id),
        transaction.objectStore('texts').get(id),
        transaction.objectStore('handles').get(id),
        files.getAllKeys(range),
        files.getAll(range),
      ]);
      if (!about || text === undefined) return null;
      const beside = new Map(names.map(([, name], i) => [name, bytes[i]!]));
      return { about, text, beside, handle: handle ?? null };
    },
    async keep(scene) {
      const transaction = (await database()).transaction(STORES, 'readwrite');
      const scenes = transaction.objectStore('scenes');
      const last = await scenes.get(scene.id);
      if ((last?.revision ?? null) !== scene.follows) {
        await transaction.done;
        return null;
      }
      const revision = (scene.follows ?? 0) + 1;
      const about = aboutOf(scene, revision);
      const files = transaction.objectStore('files');
      const handles = transaction.objectStore('handles');
      await Promise.all([
        scenes.put(about, scene.id),
        transaction.objectStore('texts').put(scene.text, scene.id),
        scene.handle ? handles.put(scene.handle, scene.id) : handles.delete(scene.id),
        ...(scene.beside
          ? [
              files.delete(filesOf(scene.id)),
              ...[...scene.beside].map(([name, bytes]) => files.put(bytes, [scene.id, name])),
            ]
          : []),
        transaction.done,
      ]);
      return revision;
    },
    async forget(id) {
      const transaction = (await database()).transaction(STORES, 'readwrite');
      await Promise.all([
        ...(['scenes', 'texts', 'handles'] as const).map((store) =>
          transaction.objectStore(store).delete(id),
        ),
        transaction.objectStore('files').delete(filesOf(id)),
        transaction.done,
      ]);
    },
  };
}

/** All keys [id, name]; an array sorts after every string. */
function filesOf(id: string): IDBKeyRange {
  return IDBKeyRange.bound([id], [id, []]);
}
