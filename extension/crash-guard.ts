/** Counts crashes of the server: one that dies again and again is left alone, so that it does not eat the machine. */

export interface CrashGuard {
  /** Notes a crash at this time (milliseconds) and says whether starting again has become hopeless. */
  crashed(now: number): boolean;
  /** Forgets all crashes, because the user asked for a new start. */
  forget(): void;
}

/** Hopeless from the fifth crash within three minutes on. */
export function createCrashGuard(most = 4, withinMs = 180_000): CrashGuard {
  let times: number[] = [];
  return {
    crashed(now) {
      times = [...times.filter((time) => now - time < withinMs), now];
      return times.length > most;
    },
    forget() {
      times = [];
    },
  };
}
