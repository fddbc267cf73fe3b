import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';

/** Which panel stands at the side, and whether the list of commands or the sheet of keys is open. One page has one of it. */
export interface ShellState {
  /** Id of the panel: see side-panels.tsx. */
  readonly panel: string;
  readonly commands: boolean;
  readonly keySheet: boolean;
}

const KEY = 'keyfall.side-panel';

export const shellStore = createStore<ShellState>(() => ({
  panel: keptPanel() ?? 'chosen',
  commands: false,
  keySheet: false,
}));

/** The panel of the last visit. Storage that fails costs the memory of it. */
function keptPanel(): string | null {
  try {
    return localStorage.getItem(KEY);
  } catch {
    return null;
  }
}

export function useShell<T>(select: (state: ShellState) => T): T {
  return useStore(shellStore, select);
}

export function openPanel(panel: string): void {
  shellStore.setState({ panel });
  try {
    localStorage.setItem(KEY, panel);
  } catch {
    // It holds for this visit.
  }
}
