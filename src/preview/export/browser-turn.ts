/** Lets the browser do what else it has to do. A timer: asking again at once would take the processor from slow graphics. */
export function browserTurn(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve));
}
