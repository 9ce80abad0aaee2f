import { getHeapStatistics } from "node:v8";
import { type ReadingAllowance, readingAllowance, USUAL_SECONDS } from "../formats/read/reading-allowance.ts";
import { usageError } from "./exit-codes.ts";

/** What `--time-limit` says to people. */
export const TIME_LIMIT_HELP = "seconds that reading one file may take; 0 for no limit";

/** What this process allows for reading: the time asked for and the heap it was started with. Throws CommandError for no number. */
export function processAllowance(text: string | undefined): ReadingAllowance {
  const seconds = text === undefined ? USUAL_SECONDS : Number(text);
  if (!Number.isFinite(seconds) || seconds < 0 || text?.trim() === "")
    throw usageError(`--time-limit takes seconds, got "${text?.slice(0, 80)}".`);
  return readingAllowance(seconds === 0 ? null : seconds, () => performance.now(), getHeapStatistics().heap_size_limit);
}
