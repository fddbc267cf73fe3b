/** Where earlier versions kept the last state of the scene, without the files beside it. */
const KEY = 'keyfall.scene';

/** The scene that an earlier version kept, if there still is one. */
export function earlierKeptScene(): string | null {
  try {
    return localStorage.getItem(KEY);
  } catch {
    return null;
  }
}

/** Called when the scene is kept elsewhere. */
export function forgetEarlierKeptScene(): void {
  try {
    localStorage.removeItem(KEY);
  } catch {
    // Storage that cannot be written is asked again next time.
  }
}
