/**
 * Which kept scene a tab had open last: its own when it is loaded again, else that of the last tab. The demo is remembered
 * as such. Where storage fails, nothing is remembered.
 */
const KEY = 'keyfall.open';
const DEMO = 'demo';

export function rememberOpen(id: string | null): void {
  for (const storage of storages()) {
    try {
      storage().setItem(KEY, id ?? DEMO);
    } catch {
      // The shelf still lists the scene.
    }
  }
}

/** The id of a kept scene; null for the demo or where nothing is known. */
export function lastOpen(): string | null {
  for (const storage of storages()) {
    try {
      const id = storage().getItem(KEY);
      if (id !== null) return id === DEMO ? null : id;
    } catch {
      // As if nothing had been remembered.
    }
  }
  return null;
}

/** Asking for a storage that is forbidden throws too. */
function storages(): (() => Storage)[] {
  return [() => sessionStorage, () => localStorage];
}
