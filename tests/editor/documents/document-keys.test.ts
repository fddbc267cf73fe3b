import { describe, expect, it } from 'vitest';
import { keysText, matches } from '../../../src/editor/documents/document-keys.ts';

const NONE = { ctrlKey: false, metaKey: false, shiftKey: false, altKey: false };
const SAVE_AS = { code: 'KeyS', primary: true, shift: true };

describe('keys', () => {
  it('are written as the machine writes them', () => {
    expect(keysText(SAVE_AS, false)).toBe('Ctrl+Shift+S');
    expect(keysText(SAVE_AS, true)).toBe('⇧⌘S');
    expect(keysText({ code: 'KeyN', alt: true, shift: true }, false)).toBe('Alt+Shift+N');
  });

  it('count only when exactly those are held', () => {
    const pressed = { ...NONE, code: 'KeyS', ctrlKey: true, shiftKey: true };
    expect(matches(SAVE_AS, pressed, false)).toBe(true);
    expect(matches(SAVE_AS, pressed, true)).toBe(false);
    expect(matches(SAVE_AS, { ...pressed, ctrlKey: false, metaKey: true }, true)).toBe(true);
    expect(matches(SAVE_AS, { ...pressed, shiftKey: false }, false)).toBe(false);
    expect(matches(SAVE_AS, { ...pressed, altKey: true }, false)).toBe(false);
    expect(matches(SAVE_AS, { ...pressed, metaKey: true }, false)).toBe(false);
  });
});
