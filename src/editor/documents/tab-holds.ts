/**
 * Which tab works on which kept scene. A tab that has one to itself holds it until it lets go, closes or crashes. That two
 * tabs cannot both write is the shelf's doing (`Shelf.keep`); holds are how they notice each other in time.
 */
export interface TabHolds {
  /** Whether this tab has the scene to itself from now on. */
  take(id: string): Promise<boolean>;
  letGo(id: string): void;
  /** Takes the scene from the tab that has it, which first keeps what it has not yet kept. */
  takeOver(id: string): Promise<void>;
  /** `beforeLoss` is waited for where another tab asks; `lost` hears of every hold that went to another tab. */
  listen(listener: { beforeLoss(id: string): Promise<void>; lost(id: string): void }): void;
}

/** A page that is loaded again may come before its old self is gone. */
const PATIENCE_ms = [0, 150, 350];
/** A tab that answers nothing for so long is frozen; what it holds is taken all the same. */
const FROZEN_ms = 2500;

const lockName = (id: string) => `keyfall.scene.${id}`;

/** By the browser's locks, which end with the tab, and a channel on which tabs ask. Without locks, every tab is alone. */
export function browserHolds(): TabHolds {
  const locks = globalThis.navigator?.locks as LockManager | undefined;
  const channel = typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel('keyfall.scenes');
  const release = new Map<string, () => void>();
  let listener: Parameters<TabHolds['listen']>[0] | null = null;

  const letGo = (id: string) => {
    release.get(id)?.();
    release.delete(id);
  };

  /** Resolves with whether it came to hold; the hold then lasts until it is let go. */
  const request = (manager: LockManager, id: string, options: LockOptions) =>
    new Promise<boolean>((answered, refused) => {
      manager
        .request(lockName(id), options, (lock) => {
          answered(lock !== null);
          if (!lock) return undefined;
          return new Promise<void>((done) => release.set(id, done));
        })
        .catch((error) => {
          // Before it was had: asked in vain. After: another tab took it by force.
          if (release.delete(id)) listener?.lost(id);
          refused(error);
        });
    });

  channel?.addEventListener('message', async ({ data }) => {
    const id: unknown = data?.wanted;
    if (typeof id !== 'string' || !release.has(id)) return;
    await listener?.beforeLoss(id);
    letGo(id);
    listener?.lost(id);
  });

  return {
    async take(id) {
      if (!locks || release.has(id)) return true;
      for (const wait_ms of PATIENCE_ms) {
        if (wait_ms > 0) await new Promise((next) => setTimeout(next, wait_ms));
        if (await request(locks, id, { ifAvailable: true })) return true;
      }
      return false;
    },
    letGo,
    async takeOver(id) {
      if (!locks || release.has(id)) return;
      channel?.postMessage({ wanted: id });
      try {
        await request(locks, id, { signal: AbortSignal.timeout(FROZEN_ms) });
      } catch {
        await request(locks, id, { steal: true });
      }
    },
    listen(given) {
      listener = given;
    },
  };
}
