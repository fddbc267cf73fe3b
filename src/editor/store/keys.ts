import type { EditorStore } from './editor-store.ts';
import { redo, undo } from './edits.ts';

/** Ctrl or ⌘ with Z, with Shift+Z, with Y. Text fields keep their own undo while they are being typed in. */
export function listenForUndoKeys(store: EditorStore): void {
  window.addEventListener('keydown', (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    if (event.defaultPrevented || isTypedIn(event.target)) return;
    const key = event.key.toLowerCase();
    if (key !== 'z' && key !== 'y') return;
    event.preventDefault();
    if (key === 'y' || event.shiftKey) redo(store);
    else undo(store);
  });
}

const TYPED_IN: ReadonlySet<string> = new Set([
  'text',
  'search',
  'email',
  'url',
  'tel',
  'password',
  'number',
]);

/** Whether keys pressed there are words. */
export function isTypedIn(target: EventTarget | null): boolean {
  if (target instanceof HTMLInputElement) return TYPED_IN.has(target.type);
  return target instanceof HTMLTextAreaElement || (target instanceof HTMLElement && target.isContentEditable);
}
