import type { PartAnswer, PartRequest } from "./part-messages.ts";

/** Another thread that runs `answerParts`. */
export interface PartThread {
  post(message: PartRequest): void;
  end(): void;
}

/** Starts a thread; `onAnswer` gets its answers, `onDeath` why it ended though nobody ended it. */
export type StartPartThread = (onAnswer: (answer: PartAnswer) => void, onDeath: (reason: string) => void) => PartThread;
