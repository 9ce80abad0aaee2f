import type { HiddenArea } from "../../../core/conflict/known-views.ts";
import type { PartGround } from "../../../core/plan-part.ts";
import type { PartCrew } from "./part-crew.ts";
import type { PartFound, PartRequest, PartWork } from "./part-messages.ts";
import type { StartPartThread } from "./part-thread.ts";
import { portableSurroundings } from "./portable-surroundings.ts";
import { type Loss, PATIENCE, type Patience, WatchedThread } from "./watched-thread.ts";

/** Works a thread has at once: one to do and one to go on with. */
const AT_ONCE = 2;
/** Works whose answers wait for an earlier one, at most, for each thread. */
const WAITING = 4;

/**
 * Threads that do the works between them. A thread that is lost is replaced, and what it had to do is done by the others; a work that two threads were
 * lost at, or a second thread lost before its first work, ends the run: what a part needs is no different on a third.
 */
export class ThreadCrew implements PartCrew {
  readonly #threads: WatchedThread[];
  #sight: Extract<PartRequest, { type: "know" }>["sight"] | null = null;
  /** The work that a thread was lost at, by its number among those asked for now. */
  readonly #lostAt = new Set<number>();
  #again: PartWork[] = [];
  #lostIdle = 0;
  #onFound: (number: number, found: PartFound[PartWork["type"]]) => void = () => {};
  #onFault: (fault: Error) => void = () => {};
  #askMore: () => void = () => {};
  #fault: Error | null = null;

  constructor(
    private readonly ground: PartGround,
    count: number,
    private readonly start: StartPartThread,
    private readonly patience: Patience = PATIENCE,
  ) {
    this.#threads = Array.from({ length: count }, (_, at) => this.#started(at));
    const surroundings = portableSurroundings(ground.surroundings);
    for (const thread of this.#threads) thread.tell({ type: "ground", ground: { ...ground, surroundings } });
  }

  know(sight: readonly HiddenArea[]): void {
    this.#sight = sight.map(({ id, kind, hidden }) => ({ id, kind, hidden }));
    for (const thread of this.#threads) thread.tell({ type: "know", sight: this.#sight });
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
      this.#lostAt.clear();
      this.#askMore = () => {
        while (this.#again.length > 0 || (!isAsked && asked - taken < WAITING * this.#threads.length)) {
          const thread = this.#threads.reduce((least, one) => (one.busy < least.busy ? one : least));
          if (thread.busy >= AT_ONCE) return;
          const again = this.#again.shift();
          const next = again === undefined ? left.next() : { done: false, value: again };
          if (next.done === true) {
            isAsked = true;
            break;
          }
          if (again === undefined) asked += 1;
          thread.give(next.value);
        }
        if (isAsked && taken === asked) resolve();
      };
      this.#onFault = reject;
      this.#onFound = (number, found) => {
        early.set(number, found as PartFound[T]);
        for (let next = early.get(taken); next !== undefined; next = early.get(taken)) {
          early.delete(taken);
          taken += 1;
          take(next);
        }
        this.#askMore();
      };
      if (this.#fault !== null) reject(this.#fault);
      else this.#askMore();
    });
  }

  end(): void {
    for (const thread of this.#threads) thread.end();
  }

  #started(at: number): WatchedThread {
    return new WatchedThread(
      this.start,
      this.patience,
      ({ number, found }) => {
        try {
          this.#onFound(number, found);
        } catch (error) {
          this.#fail(error as Error);
        }
      },
      (loss) => this.#replace(at, loss),
    );
  }

  /** Puts a new thread in the place of one that is lost, and has its works done. */
  #replace(at: number, { reason, wasAtWork, works }: Loss): void {
    const fault = this.#faultOf(reason, wasAtWork ? works[0] : undefined);
    if (fault !== null) {
      this.#fail(fault);
      return;
    }
    this.#again.push(...works);
    try {
      const thread = this.#started(at);
      this.#threads[at] = thread;
      const surroundings = portableSurroundings(this.ground.surroundings);
      thread.tell({ type: "ground", ground: { ...this.ground, surroundings } });
      if (this.#sight !== null) thread.tell({ type: "know", sight: this.#sight });
      this.#askMore();
    } catch (error) {
      this.#fail(error as Error);
    }
  }

  /** Why the run cannot go on after a thread was lost at a work, or at none; null for the first time. */
  #faultOf(reason: string, work: PartWork | undefined): Error | null {
    if (work === undefined) {
      this.#lostIdle += 1;
      return this.#lostIdle < 2 ? null : new Error(`Two threads ended before they did any work: ${reason}`);
    }
    if (this.#lostAt.has(work.number)) return new Error(`${named(work)} ended two threads: ${reason}`);
    this.#lostAt.add(work.number);
    return null;
  }

  #fail(fault: Error): void {
    this.#fault ??= fault;
    this.end();
    this.#onFault(this.#fault);
  }
}

/** A part as people find it in their file. */
function named({ number, trees }: PartWork): string {
  const [first, last] = [trees[0], trees.at(-1)];
  return `Part ${number + 1} of the trees (${first?.id.slice(0, 80)} to ${last?.id.slice(0, 80)})`;
}
