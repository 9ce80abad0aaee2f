import type { HiddenArea } from "../../../core/conflict/known-views.ts";
import type { PartGround } from "../../../core/plan-part.ts";
import { PartDesk } from "./part-desk.ts";
import type { PartFound, PartWork } from "./part-messages.ts";
import type { StartPartThread } from "./part-thread.ts";
import { ThreadCrew } from "./thread-crew.ts";

/** Those who look at parts: this thread, or some others. */
export interface PartCrew {
  /** Takes what all trees together hide, before the first part is planned. */
  know(sight: readonly HiddenArea[]): void;
  /**
   * Does all works and gives what was found to `take` in the order of the works, whoever was done first; a work is asked for when there is somebody
   * to do it. Rejects when a work fails, or two threads are lost at it.
   */
  doAll<T extends PartWork["type"]>(
    works: Iterable<Extract<PartWork, { type: T }>>,
    take: (found: PartFound[T]) => void,
  ): Promise<void>;
  /** Ends all threads; harmless twice. */
  end(): void;
}

/** A crew of some threads; of this one alone where there is nobody else to start. */
export function startCrew(ground: PartGround, threads: number, start: StartPartThread | null): PartCrew {
  return threads > 1 && start !== null ? new ThreadCrew(ground, threads, start) : new OwnCrew(ground);
}

/** This thread alone. */
class OwnCrew implements PartCrew {
  readonly #desk: PartDesk;

  constructor(ground: PartGround) {
    this.#desk = new PartDesk(ground);
  }

  know(sight: readonly HiddenArea[]): void {
    this.#desk.know(sight);
  }

  async doAll<T extends PartWork["type"]>(
    works: Iterable<Extract<PartWork, { type: T }>>,
    take: (found: PartFound[T]) => void,
  ): Promise<void> {
    for (const work of works) {
      take(workAt(this.#desk, work) as PartFound[T]);
      // Lets a signal or a message in.
      await new Promise((resolve) => setTimeout(resolve, 0));
    }
  }

  end(): void {}
}

/** What a desk finds of a part. */
export function workAt(desk: PartDesk, work: PartWork): PartFound[PartWork["type"]] {
  if (work.type === "hiders") return desk.hiders(work.trees);
  return work.type === "encode" ? desk.encode(work.trees, work.trunkNumbers) : desk.keep(work.trees, work.trunkNumbers);
}
