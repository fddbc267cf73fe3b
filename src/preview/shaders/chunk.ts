/** A piece of GLSL ES 3.00 that stands in one place: functions, constants, uniforms. */
export interface Chunk {
  /** As its file is called: where a compile error is said to lie. */
  readonly name: string;
  /** What must come before it. */
  readonly needs: readonly Chunk[];
  readonly code: string;
}

/**
 * The chunks and everything they need, each once, needs first.
 * @throws Error if two different chunks have one name, for errors could not tell them apart.
 */
export function inOrder(chunks: readonly Chunk[]): Chunk[] {
  const placed = new Map<string, Chunk>();
  const place = (chunk: Chunk): void => {
    const known = placed.get(chunk.name);
    if (known && known.code !== chunk.code)
      throw new Error(`Two shader chunks are called "${chunk.name}": every chunk needs a name of its own.`);
    if (known) return;
    chunk.needs.forEach(place);
    placed.set(chunk.name, chunk);
  };
  chunks.forEach(place);
  return [...placed.values()];
}

/**
 * The GLSL of the chunks and their needs as one text. Each chunk is numbered by its place in `inOrder` for the
 * compiler's messages, its lines counted from its own first.
 */
export function assembled(chunks: readonly Chunk[]): string {
  return inOrder(chunks)
    .map(({ code }, i) => `#line 1 ${i}\n${code}\n`)
    .join('');
}
