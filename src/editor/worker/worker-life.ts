/** A worker whose calls fail when it dies or is ended, instead of waiting for ever. */
export interface WorkerLife {
  whileAlive<T>(call: () => Promise<T>): Promise<T>;
  end(): void;
}

export function lifeOf(worker: Worker): WorkerLife {
  let dead: Error | null = null;
  let die: (error: Error) => void = () => {};
  const death = new Promise<never>((_, reject) => {
    die = (error) => {
      dead ??= error;
      reject(error);
    };
  });
  death.catch(() => {});
  worker.addEventListener('error', (event) => {
    die(new Error(event.message || 'the worker could not be started'));
  });
  return {
    whileAlive: (call) => (dead ? Promise.reject(dead) : Promise.race([call(), death])),
    end() {
      worker.terminate();
      die(new Error('the worker was ended'));
    },
  };
}
