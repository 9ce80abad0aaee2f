import type { GivenWord } from "../../core/plan/word/word-preview.ts";
import type {
  Decisions,
  HandedIn,
  RecordAnswer,
  RecordBase,
  RecordQuestion,
  RecordRequest,
  RecordShown,
  RecordTaken,
} from "./record-messages.ts";

/** Previews and takes crews' reports off the main thread. Each call rejects with an Error whose message is a sentence for the reader. */
export interface RecordDesk {
  open(base: RecordBase): Promise<void>;
  preview(files: readonly HandedIn[], decisions: Decisions): Promise<RecordShown>;
  /** Takes what the last preview showed; null where that was nothing. */
  take(decisions: Decisions): Promise<RecordTaken | null>;
  /** Takes words of arborists; null where the plan has them. Rejects with the reason where one cannot be taken. */
  say(words: readonly GivenWord[]): Promise<RecordTaken | null>;
  /** Ends the worker; what is still asked is never answered. */
  end(): void;
}

interface Waiting {
  readonly resolve: (answer: RecordAnswer) => void;
  readonly reject: (error: Error) => void;
}

/** Starts the worker of one recording. */
export function startRecord(): RecordDesk {
  const worker = new Worker(new URL("./record-worker.ts", import.meta.url), {
    type: "module",
    name: "boughline record",
  });
  const waiting = new Map<number, Waiting>();
  let turn = 0;
  worker.addEventListener("message", ({ data }: MessageEvent<RecordAnswer>) => {
    const asked = waiting.get(data.turn);
    waiting.delete(data.turn);
    if (data.type === "failed") asked?.reject(new Error(data.reason));
    else asked?.resolve(data);
  });
  worker.addEventListener("error", (event) => {
    event.preventDefault();
    const reason = "The reports could not be looked at, perhaps for lack of memory. Record them on the command line.";
    for (const { reject } of waiting.values()) reject(new Error(reason));
    waiting.clear();
  });
  const ask = <T extends RecordAnswer["type"]>(question: RecordQuestion) =>
    new Promise<Extract<RecordAnswer, { type: T }>>((resolve, reject) => {
      turn += 1;
      waiting.set(turn, { resolve: resolve as Waiting["resolve"], reject });
      worker.postMessage({ ...question, turn } satisfies RecordRequest);
    });
  return {
    open: async (base) => {
      await ask<"opened">({ type: "open", base });
    },
    preview: async (files, decisions) => (await ask<"shown">({ type: "preview", files, decisions })).shown,
    take: async (decisions) => (await ask<"taken">({ type: "take", decisions })).taken,
    say: async (words) => (await ask<"taken">({ type: "say", words })).taken,
    end: () => worker.terminate(),
  };
}
