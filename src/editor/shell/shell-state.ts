import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';

/** Which panel stands at the side, and whether the list of commands is open. One page has one of it. */
export interface ShellState {
  /** Id of the panel: see side-panels.tsx. */
  readonly panel: string;
  readonly commands: boolean;
}

export const shellStore = createStore<ShellState>(() => ({ panel: 'chosen', commands: false }));

export function useShell<T>(select: (state: ShellState) => T): T {
  return useStore(shellStore, select);
}

export function openPanel(panel: string): void {
  shellStore.setState({ panel });
}
