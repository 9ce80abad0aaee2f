import { beforeAll, describe, expect, it } from "vitest";
import { startThread } from "../../../../src/cli/threads/start-thread.ts";
import { makePlan, type PlanMeans } from "../../../../src/formats/plan/make-plan.ts";
import type { PlanRequest } from "../../../../src/formats/plan/plan-request.ts";
import { latticeRequest } from "./lattice.ts";

/** Eight threads translate the same sources on one core of a busy machine. */
const SLOW_START_MS = 240_000;
const REQUEST = latticeRequest(7);

async function textsOf(request: PlanRequest, means: PlanMeans): Promise<Record<string, string>> {
  const { files } = await makePlan(request, () => {}, undefined, means);
  return Object.fromEntries([...files].map(([name, bytes]) => [name, new TextDecoder().decode(bytes)]));
}

let alone: Record<string, string> = {};
beforeAll(async () => {
  alone = await textsOf(REQUEST, {});
});

describe("a scene of equal distances, planned by threads", () => {
  it("has ties to break: conflicts, sight areas that several trees hide, and ids given twice", () => {
    expect(JSON.parse(alone["plan.json"]!).counts.conflicts).toBeGreaterThan(98);
    const areas: { properties: { hidden_trees: string[] } }[] = JSON.parse(alone["sight.geojson"]!).features;
    expect(areas.some(({ properties }) => properties.hidden_trees.length > 1)).toBe(true);
    expect(alone["prescriptions.jsonl"]).toContain('"id":"7~2"');
  });

  it.each([1, 2, 4, 8])(
    "is the same to the byte by %i",
    async (threads) => {
      const means = { threads, startThread, partTrees: 7 };
      expect(await textsOf(REQUEST, means)).toEqual(alone);
    },
    SLOW_START_MS,
  );

  it(
    "is the same with zones, for which the plan is held",
    async () => {
      const request = { ...REQUEST, withZones: true, withWaiting: true };
      expect(await textsOf(request, { threads: 2, startThread, partTrees: 7 })).toEqual(await textsOf(request, {}));
    },
    SLOW_START_MS,
  );
});

/** Starts threads that die at the third part to encode, `times` in all. */
function dyingThreads(times: number) {
  const count = { running: 0, died: 0 };
  const start: NonNullable<PlanMeans["startThread"]> = (onAnswer, onDeath) => {
    count.running += 1;
    const thread = startThread((answer) => {
      if (answer.type !== "encode" || answer.number !== 2 || count.died === times) {
        onAnswer(answer);
        return;
      }
      count.died += 1;
      onDeath("it ran out of memory");
    }, onDeath);
    return {
      post: (message) => thread.post(message),
      end: () => {
        count.running -= 1;
        thread.end();
      },
    };
  };
  return { count, start };
}

describe("a thread that dies", () => {
  it(
    "is replaced, and what it had to do is done by another, to the same bytes",
    async () => {
      const { count, start } = dyingThreads(1);
      const means = { threads: 2, startThread: start, partTrees: 7 };
      expect(await textsOf(REQUEST, means)).toEqual(alone);
      expect(count).toEqual({ running: 0, died: 1 });
    },
    SLOW_START_MS,
  );

  it(
    "ends the run where each that takes the part over dies too, and leaves no other thread behind",
    async () => {
      const { count, start } = dyingThreads(Number.POSITIVE_INFINITY);
      const run = makePlan(REQUEST, () => {}, undefined, { threads: 2, startThread: start, partTrees: 7 });
      await expect(run).rejects.toThrow(/^Part 3 of the trees \(.+ to .+\) ended two threads: it ran out of memory$/);
      expect(count).toEqual({ running: 0, died: 2 });
    },
    SLOW_START_MS,
  );

  it("tells what threads could not do", async () => {
    const failing: NonNullable<PlanMeans["startThread"]> = (onAnswer) => ({
      post: (message) => {
        if (message.type === "ground") onAnswer({ type: "ready" });
        if (message.type === "hiders") onAnswer({ type: "failed", reason: "no such plane" });
      },
      end: () => {},
    });
    const run = makePlan(REQUEST, () => {}, undefined, { threads: 2, startThread: failing, partTrees: 7 });
    await expect(run).rejects.toThrow("Part 1 of the trees (0 to 3) ended two threads: no such plane");
  });

  it("ends the run where two cannot even start", async () => {
    const failing: NonNullable<PlanMeans["startThread"]> = (onAnswer) => ({
      post: (message) => {
        if (message.type === "ground") queueMicrotask(() => onAnswer({ type: "failed", reason: "no memory" }));
      },
      end: () => {},
    });
    const run = makePlan(REQUEST, () => {}, undefined, { threads: 2, startThread: failing, partTrees: 7 });
    await expect(run).rejects.toThrow("Two threads ended before they did any work: no memory");
  });
});
