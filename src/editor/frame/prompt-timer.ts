/** Runs its work once for each `start`, a millisecond later. */
export interface PromptTimer {
  /** Nothing more while it waits already. */
  start(): void;
  /** From now on it runs nothing more. */
  dispose(): void;
}

/**
 * Timers that are set by timers wait for 4 ms at least, a quarter of the time that the card has for a piece of drawing; those
 * that are set by a message do not.
 */
export function newPromptTimer(work: () => void): PromptTimer {
  const channel = new MessageChannel();
  let timer: ReturnType<typeof setTimeout> | undefined;
  let waits = false;
  channel.port1.onmessage = () => {
    timer = setTimeout(() => {
      waits = false;
      work();
    });
  };
  return {
    start() {
      if (waits) return;
      waits = true;
      channel.port2.postMessage(null);
    },
    dispose() {
      waits = true;
      clearTimeout(timer);
      channel.port1.close();
    },
  };
}
