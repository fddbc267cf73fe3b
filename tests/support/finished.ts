/** What a piece of work that goes step by step comes to. */
export function finished<T>(work: Generator<unknown, T>): T {
  for (;;) {
    const { done, value } = work.next();
    if (done) return value;
  }
}
