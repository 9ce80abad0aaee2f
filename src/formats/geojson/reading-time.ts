import { featureFault } from "./feature-fault.ts";
import { UnreadableError } from "./open-document.ts";

/** How long the reading of one file may take. The clock is the caller's: nothing here knows the time. */
export interface TimeLimit {
  /** For the message. */
  readonly seconds: number;
  /** Whether the time is over. */
  isOver(): boolean;
}

/** Features, records or kilobytes between two looks at the clock. */
const STEPS_BETWEEN = 512;

/**
 * Asked by readers as they work, so that none goes on without end. It never changes what is read, only whether: a file that takes too long is
 * refused whole.
 */
export class ReadingTime {
  #steps = 0;
  constructor(readonly limit: TimeLimit | null = null) {}

  /** Counts a step, of a feature or a kilobyte. Throws UnreadableError once the time is over. */
  step(): void {
    this.#steps += 1;
    if (this.limit === null || this.#steps % STEPS_BETWEEN !== 0) return;
    this.look();
  }

  /** Looks at the clock at once, before or after a long step. */
  look(): void {
    if (this.limit?.isOver() !== true) return;
    const reason = `The file was not read within ${this.limit.seconds} seconds, the time limit for one file.`;
    throw new UnreadableError(
      featureFault(
        "too-slow",
        null,
        null,
        reason,
        "Split the file, or allow more time (on the command line --time-limit SECONDS).",
      ),
    );
  }
}

/** A limit that runs from now on, by a clock in milliseconds; null seconds is no limit. */
export function timeLimit(seconds: number | null, nowMs: () => number): TimeLimit | null {
  if (seconds === null) return null;
  const endMs = nowMs() + seconds * 1000;
  return { seconds, isOver: () => nowMs() > endMs };
}
