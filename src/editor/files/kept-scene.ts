/** The last state of the scene, kept in this browser under one key. Storage may be off, full or forbidden. */
const KEY = 'keyfall.scene';

export function readKeptScene(): string | null {
  try {
    return localStorage.getItem(KEY);
  } catch {
    return null;
  }
}

export function forgetKeptScene(): void {
  try {
    localStorage.removeItem(KEY);
  } catch {
    // Storage that cannot be written holds nothing to forget.
  }
}

/** Returns what to tell the person when it could not be kept. */
export function keepScene(text: string): string | null {
  try {
    localStorage.setItem(KEY, text);
    return null;
  } catch {
    const size = `${(text.length / 1e6).toFixed(1)} MB`;
    return `This browser does not keep the scene (${size}): storage is full or off. Save it as a file before you leave.`;
  }
}
