import type { EditorState } from './editor-state.ts';
import type { EditorStore } from './editor-store.ts';

/** What a person set for this browser, whatever the scene: kept across visits. */
const KEPT = ['unit', 'lengths', 'scheme'] as const satisfies readonly (keyof EditorState)[];
type Preferences = Pick<EditorState, (typeof KEPT)[number]>;

const CHOICES: { readonly [K in keyof Preferences]: readonly Preferences[K][] } = {
  unit: ['lx', 'fc'],
  lengths: ['metric', 'imperial'],
  scheme: ['night', 'day'],
};

const KEY = 'keyfall.preferences';

/** Takes up what was kept, and keeps what is changed. Storage that fails costs the memory of it, nothing else. */
export function keepPreferences(store: EditorStore): void {
  store.setState(readPreferences());
  store.subscribe((now, before) => {
    if (KEPT.every((key) => now[key] === before[key])) return;
    const { unit, lengths, scheme } = now;
    try {
      localStorage.setItem(KEY, JSON.stringify({ unit, lengths, scheme }));
    } catch {
      // They hold for this visit.
    }
  });
}

function readPreferences(): Partial<Preferences> {
  let kept: Record<string, unknown>;
  try {
    kept = Object(JSON.parse(localStorage.getItem(KEY) ?? '{}'));
  } catch {
    return {};
  }
  return Object.fromEntries(
    KEPT.filter((key) => (CHOICES[key] as readonly unknown[]).includes(kept[key])).map((key) => [
      key,
      kept[key],
    ]),
  );
}
