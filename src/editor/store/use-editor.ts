import { createContext, useContext } from 'react';
import { useStore } from 'zustand';
import type { Session } from '../session.ts';
import { drawnState } from './drawn-state.ts';
import type { EditorState } from './editor-state.ts';
import type { EditorStore } from './editor-store.ts';
import { canUndo } from './edits.ts';

const SessionContext = createContext<Session | null>(null);
export const SessionProvider = SessionContext.Provider;

export function useSession(): Session {
  const session = useContext(SessionContext);
  if (!session) throw new Error('this component stands outside the SessionProvider');
  return session;
}

export function useEditorStore(): EditorStore {
  return useSession().store;
}

/** A part of the state; the selector must return the same object while nothing it shows has changed. */
export function useEditor<T>(select: (state: EditorState) => T): T {
  return useStore(drawnState(useEditorStore()), select);
}

export function useHistory(): { readonly canUndo: boolean; readonly canRedo: boolean } {
  const { temporal } = useEditorStore();
  return {
    canUndo: useStore(temporal, (history) => canUndo(history.pastStates)),
    canRedo: useStore(temporal, (history) => history.futureStates.length > 0),
  };
}
