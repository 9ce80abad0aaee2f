import type { IntakeAnswer, IntakeQuestion, IntakeReport, IntakeRequest, TableGuess } from "./intake-messages.ts";

/** Reads files and says what a run would make of them, off the main thread. */
export interface IntakeDesk {
  /** The tables of a file with the layers they are taken for. Rejects with an Error in a sentence when the worker gave up. */
  open(name: string, blob: Blob): Promise<readonly TableGuess[]>;
  /** What a run would do; null when a newer question came meanwhile. Rejects as `open`. */
  check(question: IntakeQuestion, onWay: OnTheWay): Promise<IntakeReport | null>;
  /** Ends the worker; what is still asked is never answered. */
  end(): void;
}

/** What is told while files are looked at. */
export interface OnTheWay {
  doing(doing: string): void;
  /** The columns, before all trees were looked at; see `checkSources`. */
  columns(report: IntakeReport): void;
}

const NOBODY: OnTheWay = { doing: () => {}, columns: () => {} };

interface Waiting {
  readonly isCheck: boolean;
  readonly resolve: (answer: unknown) => void;
  readonly reject: (error: Error) => void;
  readonly onWay: OnTheWay;
}

/** Starts the worker of one intake. */
export function startIntake(): IntakeDesk {
  const worker = new Worker(new URL("./intake-worker.ts", import.meta.url), {
    type: "module",
    name: "boughline intake",
  });
  const waiting = new Map<number, Waiting>();
  let turn = 0;
  worker.addEventListener("message", ({ data }: MessageEvent<IntakeAnswer>) => {
    const asked = waiting.get(data.turn);
    if (asked === undefined) return;
    if (data.type === "doing") {
      asked.onWay.doing(data.doing);
      return;
    }
    if (data.type === "columns") {
      asked.onWay.columns(data.report);
      return;
    }
    waiting.delete(data.turn);
    if (data.type === "failed") asked.reject(new Error(data.reason));
    else asked.resolve(data.type === "opened" ? data.tables : data.report);
  });
  worker.addEventListener("error", (event) => {
    event.preventDefault();
    const reason = "The files could not be looked at, perhaps for lack of memory. Try fewer or smaller files.";
    for (const { reject } of waiting.values()) reject(new Error(reason));
    waiting.clear();
  });
  const ask = <T>(request: (turn: number) => IntakeRequest, isCheck: boolean, onWay: OnTheWay) =>
    new Promise<T>((resolve, reject) => {
      turn += 1;
      waiting.set(turn, { isCheck, resolve: resolve as Waiting["resolve"], reject, onWay });
      worker.postMessage(request(turn));
    });
  return {
    open: (name, blob) => ask((turn) => ({ type: "open", turn, name, blob }), false, NOBODY),
    check(question, onWay) {
      for (const [older, { isCheck, resolve }] of waiting) {
        if (!isCheck) continue;
        waiting.delete(older);
        resolve(null);
      }
      return ask((turn) => ({ type: "check", turn, question }), true, onWay);
    },
    end: () => worker.terminate(),
  };
}
