import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { Tree } from "../../../../src/core/model/trees.ts";
import type { PartAnswer } from "../../../../src/formats/plan/part/part-messages.ts";
import { type Loss, WatchedThread } from "../../../../src/formats/plan/part/watched-thread.ts";

const PATIENCE = { startMs: 1000, partMs: 100, treeMs: 10 };
const work = (number: number) => ({ type: "hiders" as const, number, trees: [{ id: `t${number}` }] as Tree[] });
const HIDES_NOTHING = { hiders: [], trunks: [] } as unknown as Extract<PartAnswer, { type: "hiders" }>["found"];
const found = (number: number): PartAnswer => ({ type: "hiders", number, found: HIDES_NOTHING });

function watched() {
  const told = { answer: (_: PartAnswer): void => {}, die: (_: string): void => {}, ended: 0 };
  const losses: Loss[] = [];
  const thread = new WatchedThread(
    (answer, die) => {
      Object.assign(told, { answer, die });
      return {
        post: () => {},
        end: () => {
          told.ended += 1;
        },
      };
    },
    PATIENCE,
    () => {},
    (loss) => losses.push(loss),
  );
  return { told, losses, thread };
}

describe("a thread that is watched", () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  it("is lost when it is silent for longer than its part may take, and gives its works back", () => {
    const { told, losses, thread } = watched();
    told.answer({ type: "ready" });
    thread.give(work(0));
    thread.give(work(1));
    vi.advanceTimersByTime(109);
    expect(losses).toEqual([]);
    vi.advanceTimersByTime(1);
    expect(losses).toEqual([
      { reason: expect.stringContaining("it was silent for 0 s"), wasAtWork: true, works: [work(0), work(1)] },
    ]);
    expect(told.ended).toBe(1);
  });

  it("has the time of a part again with each answer, and all the time there is with nothing to do", () => {
    const { told, losses, thread } = watched();
    told.answer({ type: "ready" });
    thread.give(work(0));
    thread.give(work(1));
    vi.advanceTimersByTime(100);
    told.answer(found(0));
    vi.advanceTimersByTime(100);
    told.answer(found(1));
    vi.advanceTimersByTime(1_000_000);
    expect(losses).toEqual([]);
    expect(thread.busy).toBe(0);
  });

  it("may take long to start, and is not lost at a work that it never began", () => {
    const { losses, thread } = watched();
    thread.give(work(0));
    vi.advanceTimersByTime(999);
    expect(losses).toEqual([]);
    vi.advanceTimersByTime(1);
    expect(losses).toEqual([
      { reason: expect.stringContaining("it was silent for 1 s"), wasAtWork: false, works: [work(0)] },
    ]);
  });

  it("is lost once, and what it says afterwards is not heard", () => {
    const { told, losses, thread } = watched();
    told.answer({ type: "ready" });
    thread.give(work(0));
    told.die("it ended with 7");
    told.answer(found(0));
    told.die("again");
    vi.advanceTimersByTime(1_000_000);
    expect(losses).toEqual([{ reason: "it ended with 7", wasAtWork: true, works: [work(0)] }]);
  });
});
