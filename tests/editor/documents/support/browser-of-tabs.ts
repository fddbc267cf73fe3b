import { aboutOf, type KeptWhole, type Shelf } from '../../../../src/editor/documents/shelf.ts';
import type { TabHolds } from '../../../../src/editor/documents/tab-holds.ts';

/** One browser with a shelf in memory and any number of tabs; storage can be made to fail. */
export function browserOfTabs() {
  const kept = new Map<string, KeptWhole>();
  const holders = new Map<string, { tab: number; beforeLoss: () => Promise<void>; lost: () => void }>();
  let failure: Error | null = null;
  let writes = 0;
  let tabs = 0;

  const orFail = () => {
    if (failure) throw failure;
  };
  const shelf: Shelf = {
    async list() {
      orFail();
      return [...kept.values()]
        .map(({ about }) => about)
        .sort((one, other) => other.changed_ms - one.changed_ms);
    },
    async read(id) {
      orFail();
      return kept.get(id) ?? null;
    },
    async keep(scene) {
      orFail();
      const last = kept.get(scene.id);
      if ((last?.about.revision ?? null) !== scene.follows) return null;
      const revision = (scene.follows ?? 0) + 1;
      const beside = scene.beside ?? last?.beside ?? new Map();
      kept.set(scene.id, { about: aboutOf(scene, revision), text: scene.text, handle: scene.handle, beside });
      writes++;
      return revision;
    },
    async forget(id) {
      orFail();
      kept.delete(id);
    },
  };

  const newTab = (): TabHolds & { crash(): void } => {
    const tab = ++tabs;
    let listener: Parameters<TabHolds['listen']>[0] | null = null;
    const hold = (id: string) =>
      holders.set(id, {
        tab,
        beforeLoss: async () => listener?.beforeLoss(id),
        lost: () => listener?.lost(id),
      });
    return {
      async take(id) {
        if ((holders.get(id)?.tab ?? tab) !== tab) return false;
        hold(id);
        return true;
      },
      letGo(id) {
        if (holders.get(id)?.tab === tab) holders.delete(id);
      },
      async takeOver(id) {
        const holder = holders.get(id);
        await holder?.beforeLoss();
        holder?.lost();
        hold(id);
      },
      listen(given) {
        listener = given;
      },
      crash() {
        for (const [id, holder] of holders) if (holder.tab === tab) holders.delete(id);
      },
    };
  };

  return {
    shelf,
    newTab,
    kept: () => [...kept.values()],
    writes: () => writes,
    fail: (error: Error | null) => {
      failure = error;
    },
  };
}
