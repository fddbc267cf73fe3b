/** 32-bit words as text and back, for the way between test and page. */
export function textFromWords(words: Uint32Array): string {
  const bytes = new Uint8Array(words.buffer, words.byteOffset, words.byteLength);
  const CHUNK = 0x8000;
  let binary = '';
  for (let i = 0; i < bytes.length; i += CHUNK)
    binary += String.fromCharCode(...bytes.subarray(i, i + CHUNK));
  return btoa(binary);
}

export function wordsFromText(text: string): Uint32Array {
  const binary = atob(text);
  const bytes = new Uint8Array(binary.length);
  for (let i = 0; i < binary.length; i++) bytes[i] = binary.charCodeAt(i);
  return new Uint32Array(bytes.buffer);
}

/** The words that hold floats. */
export function wordsOf(floats: Float32Array): Uint32Array {
  return new Uint32Array(floats.buffer, floats.byteOffset, floats.length);
}
