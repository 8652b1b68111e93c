/** Keeps at most one piece of work running: what is asked meanwhile is done once afterwards, with what was asked last. */

export interface Latest<T> {
  /** Asks for the work; resolves when nothing asked so far is left to be done. */
  ask(value: T): Promise<void>;
}

/** `isOld` says whether something newer waits. What it throws goes to `failed`. */
export function createLatest<T>(
  work: (value: T, isOld: () => boolean) => Promise<void>,
  failed: (error: unknown) => void,
): Latest<T> {
  let waiting: { readonly value: T } | undefined;
  let running: Promise<void> | undefined;
  const run = async (): Promise<void> => {
    while (waiting !== undefined) {
      const { value } = waiting;
      waiting = undefined;
      try {
        await work(value, () => waiting !== undefined);
      } catch (error) {
        failed(error);
      }
    }
    running = undefined;
  };
  return {
    ask: (value) => {
      waiting = { value };
      return (running ??= run());
    },
  };
}
