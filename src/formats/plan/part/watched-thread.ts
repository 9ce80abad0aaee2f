import type { PartAnswer, PartRequest, PartWork } from "./part-messages.ts";
import type { PartThread, StartPartThread } from "./part-thread.ts";

/** How long a thread may be silent before it is given up as hung. */
export interface Patience {
  /** Until it has taken in the ground, ms: many threads may have to start on one core of a busy machine. */
  readonly startMs: number;
  /** For a part whatever its size, ms. */
  readonly partMs: number;
  /** For each tree of a part, ms: some sixty times what it takes on a free core, since a machine may have much else to do. */
  readonly treeMs: number;
}

/** Our policy: two threads that hang at one part are given up within half a minute where it is small, and within two and a half minutes at 1000 trees; planning alone has no such limit. */
export const PATIENCE: Patience = { startMs: 300_000, partMs: 12_000, treeMs: 60 };

type Found = Exclude<PartAnswer, { type: "ready" } | { type: "failed" }>;

/** Why a thread is lost; its works are still to be done, the first of which it was at. */
export interface Loss {
  readonly reason: string;
  /** Whether it was at its first work, rather than starting. */
  readonly wasAtWork: boolean;
  readonly works: readonly PartWork[];
}

/** A thread with the works it has still to answer; it is lost once when it dies, fails or is silent for too long, and is ended then. */
export class WatchedThread {
  readonly #thread: PartThread;
  #open: PartWork[] = [];
  #isReady = false;
  #isOver = false;
  #clock: ReturnType<typeof setTimeout> | undefined;

  constructor(
    start: StartPartThread,
    private readonly patience: Patience,
    private readonly onFound: (found: Found) => void,
    private readonly onLoss: (loss: Loss) => void,
  ) {
    this.#thread = start(
      (answer) => this.#take(answer),
      (reason) => this.#lose(reason),
    );
    this.#watch();
  }

  /** Works that it has been given and has not answered. */
  get busy(): number {
    return this.#open.length;
  }

  tell(message: Exclude<PartRequest, PartWork>): void {
    this.#thread.post(message);
  }

  give(work: PartWork): void {
    this.#open.push(work);
    if (this.#isReady && this.#open.length === 1) this.#watch();
    this.#thread.post(work);
  }

  /** Ends the thread; harmless twice. */
  end(): void {
    if (this.#isOver) return;
    this.#isOver = true;
    clearTimeout(this.#clock);
    this.#thread.end();
  }

  #take(answer: PartAnswer): void {
    if (this.#isOver) return;
    if (answer.type === "failed") {
      this.#lose(answer.reason);
      return;
    }
    this.#isReady = true;
    if (answer.type !== "ready") this.#open.shift();
    this.#watch();
    if (answer.type !== "ready") this.onFound(answer);
  }

  #lose(reason: string): void {
    if (this.#isOver) return;
    this.end();
    const works = this.#open;
    this.#open = [];
    this.onLoss({ reason, wasAtWork: this.#isReady && works.length > 0, works });
  }

  #watch(): void {
    clearTimeout(this.#clock);
    const { startMs, partMs, treeMs } = this.patience;
    const next = this.#open[0];
    if (this.#isReady && next === undefined) return;
    const ms = this.#isReady ? partMs + treeMs * next!.trees.length : startMs;
    this.#clock = setTimeout(() => this.#lose(silent(ms)), ms);
  }
}

const silent = (ms: number): string =>
  `it was silent for ${Math.round(ms / 1000)} s; planning with one thread waits as long as it takes`;
