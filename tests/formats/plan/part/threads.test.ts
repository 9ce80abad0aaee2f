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

describe("a thread that dies", () => {
  it("ends the run with a fault and leaves no other thread behind", async () => {
    let left = 0;
    const dying: NonNullable<PlanMeans["startThread"]> = (onAnswer, onDeath) => {
      left += 1;
      const thread = startThread(onAnswer, onDeath);
      return {
        post: (message) => {
          thread.post(message);
          if (message.type === "encode" && message.number === 2) onDeath("it ran out of memory");
        },
        end: () => {
          left -= 1;
          thread.end();
        },
      };
    };
    const run = makePlan(REQUEST, () => {}, undefined, { threads: 2, startThread: dying, partTrees: 7 });
    await expect(run).rejects.toThrow("A thread ended before its work was done: it ran out of memory");
    expect(left).toBeLessThanOrEqual(0);
  });

  it("tells what a thread could not do", async () => {
    const failing: NonNullable<PlanMeans["startThread"]> = (onAnswer) => ({
      post: (message) => {
        if (message.type === "hiders") onAnswer({ type: "failed", reason: "no such plane" });
      },
      end: () => {},
    });
    const run = makePlan(REQUEST, () => {}, undefined, { threads: 2, startThread: failing, partTrees: 7 });
    await expect(run).rejects.toThrow("no such plane");
  });
});
