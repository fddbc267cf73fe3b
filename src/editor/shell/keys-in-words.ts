import { isMac } from '../documents/document-keys.ts';

/** Keys as an action names them, `Mod+Shift+a`, as a person reads them: Ctrl+Shift+A, or ⇧⌘A on a Mac. */
export function keysInWords(keys: string, mac = isMac()): string {
  const parts = keys.split('+');
  const last = parts.at(-1) ?? '';
  const key = last.length === 1 ? last.toUpperCase() : last;
  const [mod, shift] = [parts.includes('Mod'), parts.includes('Shift')];
  if (mac) return `${shift ? '⇧' : ''}${mod ? '⌘' : ''}${key}`;
  return [mod && 'Ctrl', shift && 'Shift', key].filter(Boolean).join('+');
}
