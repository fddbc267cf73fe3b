import { useStore } from 'zustand';
import { useSession } from '../store/use-editor.ts';
import type { DocumentsState } from './documents-state.ts';

/** A part of what is known of the documents; the selector must return the same object while it has not changed. */
export function useDocuments<T>(select: (state: DocumentsState) => T): T {
  return useStore(useSession().documents.state, select);
}
