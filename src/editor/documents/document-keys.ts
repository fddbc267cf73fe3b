import type { Session } from '../session.ts';
import { documentActions } from './document-actions.ts';

/** The keys of one action, as the event names them; `primary` is Ctrl, or ⌘ on a Mac. */
export interface ActionKeys {
  /** The key's place on the keyboard: with Alt, layouts put other letters on it. */
  readonly code: string;
  readonly primary?: boolean;
  readonly shift?: boolean;
  readonly alt?: boolean;
}

/** Ctrl+Shift+S, or ⇧⌘S on a Mac. */
export function keysText({ code, primary, shift, alt }: ActionKeys, mac = isMac()): string {
  const letter = code.replace(/^Key/, '');
  if (mac) return `${alt ? '⌥' : ''}${shift ? '⇧' : ''}${primary ? '⌘' : ''}${letter}`;
  return [primary && 'Ctrl', alt && 'Alt', shift && 'Shift', letter].filter(Boolean).join('+');
}

type Pressed = Pick<KeyboardEvent, 'code' | 'ctrlKey' | 'metaKey' | 'shiftKey' | 'altKey'>;

export function matches(keys: ActionKeys, event: Pressed, mac = isMac()): boolean {
  const primary = mac ? event.metaKey : event.ctrlKey;
  const other = mac ? event.ctrlKey : event.metaKey;
  return (
    event.code === keys.code &&
    primary === (keys.primary ?? false) &&
    !other &&
    event.shiftKey === (keys.shift ?? false) &&
    event.altKey === (keys.alt ?? false)
  );
}

export function isMac(): boolean {
  return typeof navigator !== 'undefined' && /Mac|iPhone|iPad/.test(navigator.userAgent);
}

/** A field takes what is typed in it when it is left: so it is left for a moment, and saved is what is on the screen. */
function takeTyping(): void {
  const field = window.document.activeElement;
  if (!(field instanceof HTMLInputElement || field instanceof HTMLTextAreaElement)) return;
  field.blur();
  field.focus();
}

/** Runs the actions of the document by their keys, wherever the focus is. */
export function listenForDocumentKeys(session: Session): void {
  window.addEventListener('keydown', (event) => {
    if (event.defaultPrevented || event.repeat || !(event.ctrlKey || event.metaKey || event.altKey)) return;
    const action = documentActions(session).find(
      ({ combination }) => combination && matches(combination, event),
    );
    if (!action) return;
    event.preventDefault();
    takeTyping();
    if (action.enabled()) action.run();
  });
}
