const SIGNALS = ["SIGINT", "SIGTERM", "SIGHUP"] as const;
const NUMBERS = { SIGINT: 2, SIGTERM: 15, SIGHUP: 1 } as const;

/** Calls `giveBack` and ends with 128 + signal when the run is stopped; `release` ends the watch. */
export function stopCleanly(giveBack: () => void): { release: () => void } {
  const stop = (signal: (typeof SIGNALS)[number]) => {
    giveBack();
    process.exit(128 + NUMBERS[signal]);
  };
  for (const signal of SIGNALS) process.once(signal, stop);
  return {
    release: () => {
      for (const signal of SIGNALS) process.removeListener(signal, stop);
    },
  };
}
