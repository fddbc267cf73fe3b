/**
 * Runs `work` whenever asked, one at a time. Asked again and again while it runs, it runs once more afterwards: what is
 * queued is never more than the latest wish. `work` looks up for itself what is wanted when it starts.
 */
export function latestWins(work: () => Promise<void>): () => void {
  let running = false;
  let wanted = false;
  const run = async () => {
    running = true;
    while (wanted) {
      wanted = false;
      await work();
    }
    running = false;
  };
  return () => {
    wanted = true;
    if (!running) void run();
  };
}
