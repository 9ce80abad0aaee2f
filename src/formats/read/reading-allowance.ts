import { ReadingTime, timeLimit } from "../geojson/reading-time.ts";

/** What a caller allows for reading files; the readers themselves know neither clock nor memory. */
export interface ReadingAllowance {
  /** The time of one file, from now on. */
  newTime(): ReadingTime;
  /** Features of all files together that there is memory for. */
  readonly maxFeatures: number;
}

/** No limit but those of the readers. */
export const UNBOUNDED: ReadingAllowance = { newTime: () => new ReadingTime(), maxFeatures: Number.POSITIVE_INFINITY };

/** Seconds for one file where nobody says otherwise; a million trees take about ten to read (measured). Our policy. */
export const USUAL_SECONDS = 600;

/**
 * Bytes of the JavaScript heap that a run needs for a feature with ten columns, with room to spare. Measured on Node 20: `check` of 1,000,000 trees
 * had taken 3.8 GB beside the files themselves when it was last looked at.
 */
const HEAP_BYTES_PER_FEATURE = 4500;

/** An allowance by a clock in milliseconds and the most the heap can hold; null where one is not known or not wanted. */
export const readingAllowance = (
  seconds: number | null,
  nowMs: () => number,
  heapBytes: number | null,
): ReadingAllowance => ({
  newTime: () => new ReadingTime(timeLimit(seconds, nowMs)),
  maxFeatures: heapBytes === null ? Number.POSITIVE_INFINITY : Math.floor(heapBytes / HEAP_BYTES_PER_FEATURE),
});
