import type { HiddenArea } from "../../../core/conflict/known-views.ts";
import type { PartGround } from "../../../core/plan-part.ts";
import type { PartCrew } from "./part-crew.ts";
import type { PartAnswer, PartFound, PartRequest, PartWork } from "./part-messages.ts";
import { portableSurroundings } from "./portable-surroundings.ts";

/** Another thread that runs `answerParts`. */
export interface PartThread {
  post(message: PartRequest): void;
  end(): void;
}

/** Starts a thread; `onAnswer` gets its answers, `onDeath` why it ended though nobody ended it. */
export type StartPartThread = (onAnswer: (answer: PartAnswer) => void, onDeath: (reason: string) => void) => PartThread;

/** Works a thread has at once: one to do and one to go on with. */
const AT_ONCE = 2;
/** Works whose answers wait for an earlier one, at most, for each thread. */
const WAITING = 4;

/** Threads that do the works between them. */
export class ThreadCrew implements PartCrew {
  readonly #threads: PartThread[];
  readonly #busy: number[];
  #onAnswer: (thread: number, answer: PartAnswer) => void = () => {};
  #onFault: (fault: Error) => void = () => {};
  #fault: Error | null = null;

  constructor(ground: PartGround, count: number, start: StartPartThread) {
    this.#busy = Array.from({ length: count }, () => 0);
    this.#threads = this.#busy.map((_, thread) =>
      start(
        (answer) => this.#onAnswer(thread, answer),
        (reason) => this.#fail(new Error(`A thread ended before its work was done: ${reason}`)),
      ),
    );
    const surroundings = portableSurroundings(ground.surroundings);
    for (const thread of this.#threads) thread.post({ type: "ground", ground: { ...ground, surroundings } });
  }

  know(sight: readonly HiddenArea[]): void {
    const bare = sight.map(({ id, kind, hidden }) => ({ id, kind, hidden }));
    for (const thread of this.#threads) thread.post({ type: "know", sight: bare });
  }

  doAll<T extends PartWork["type"]>(
    works: Iterable<Extract<PartWork, { type: T }>>,
    take: (found: PartFound[T]) => void,
  ): Promise<void> {
    return new Promise((resolve, reject) => {
      const left = works[Symbol.iterator]();
      const early = new Map<number, PartFound[T]>();
      let [asked, taken] = [0, 0];
      let isAsked = false;
      const askMore = (): void => {
        while (!isAsked && asked - taken < WAITING * this.#threads.length) {
          const thread = this.#busy.indexOf(Math.min(...this.#busy));
          if (this.#busy[thread]! >= AT_ONCE) return;
          const next = left.next();
          if (next.done === true) {
            isAsked = true;
            break;
          }
          this.#busy[thread]! += 1;
          asked += 1;
          this.#threads[thread]!.post(next.value);
        }
        if (isAsked && taken === asked) resolve();
      };
      this.#onFault = reject;
      this.#onAnswer = (thread, answer) => {
        if (answer.type === "failed") {
          this.#fail(new Error(answer.reason));
          return;
        }
        this.#busy[thread]! -= 1;
        early.set(answer.number, answer.found as PartFound[T]);
        try {
          for (let found = early.get(taken); found !== undefined; found = early.get(taken)) {
            early.delete(taken);
            taken += 1;
            take(found);
          }
          askMore();
        } catch (error) {
          this.#fail(error as Error);
        }
      };
      if (this.#fault !== null) reject(this.#fault);
      else askMore();
    });
  }

  end(): void {
    for (const thread of this.#threads) thread.end();
  }

  #fail(fault: Error): void {
    this.#fault ??= fault;
    this.end();
    this.#onFault(this.#fault);
  }
}
