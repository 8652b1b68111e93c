/** Counts crashes of the server: one that dies again and again is started again only after a wait, so that it does not eat the machine. */

export interface CrashGuard {
  /** Notes a crash at this time (milliseconds) and says how many seconds to wait before the server is started again. */
  crashed(now: number): number;
  /** Forgets all crashes, because the user asked for a new start. */
  forget(): void;
}

/** Starts again at once up to `most` times within three minutes; from then on after 1, 2, 4 seconds and so on, half a minute at most. */
export function createCrashGuard(most = 4, withinMs = 180_000): CrashGuard {
  let times: number[] = [];
  return {
    crashed(now) {
      times = [...times.filter((time) => now - time < withinMs), now];
      const over = times.length - most;
      return over <= 0 ? 0 : Math.min(2 ** (over - 1), 30);
    },
    forget() {
      times = [];
    },
  };
}
