import { afterEach, describe, expect, test, vi } from "vitest";
import { type ClaimState, claimWork } from "../../../src/app/keep/claim-work.ts";

const ends: (() => void)[] = [];
let names = 0;

afterEach(() => {
  for (const end of ends.splice(0)) end();
  vi.unstubAllGlobals();
});

function claim(name: string): { told: ClaimState[]; end: () => void } {
  const told: ClaimState[] = [];
  const end = claimWork(name, (state) => told.push(state));
  ends.push(end);
  return { told, end };
}

/** Locks as the standard words them, as far as one page after another needs them. */
function locks() {
  const waiting = new Map<string, (() => void)[]>();
  return {
    async request(
      name: string,
      options: { ifAvailable?: boolean; signal?: AbortSignal },
      hold: (lock: object | null) => unknown,
    ) {
      const queue = waiting.get(name);
      if (queue !== undefined) {
        if (options.ifAvailable === true) return hold(null);
        await new Promise<void>((resolve, reject) => {
          queue.push(resolve);
          options.signal?.addEventListener("abort", () => {
            queue.splice(queue.indexOf(resolve), 1);
            reject(new Error("aborted"));
          });
        });
      } else waiting.set(name, []);
      try {
        return await hold({});
      } finally {
        const next = waiting.get(name)?.shift();
        if (next === undefined) waiting.delete(name);
        else next();
      }
    },
  };
}

describe.each([
  ["with locks", () => vi.stubGlobal("navigator", { locks: locks() })],
  ["by messages", () => vi.stubGlobal("navigator", {})],
])("%s", (_, setUp) => {
  test("the first has the plan, the second waits and gets it when the first lets go", async () => {
    setUp();
    const name = `plan ${++names}`;
    const first = claim(name);
    await expect.poll(() => first.told, { timeout: 3000 }).toEqual(["mine"]);
    const second = claim(name);
    await expect.poll(() => second.told, { timeout: 3000 }).toEqual(["elsewhere"]);
    first.end();
    await expect.poll(() => second.told, { timeout: 3000 }).toEqual(["elsewhere", "mine"]);
    expect(first.told).toEqual(["mine"]);
  });

  test("plans do not wait for each other, and a claim ended while it waits gets nothing", async () => {
    setUp();
    const [name, other] = [`plan ${++names}`, `plan ${++names}`];
    const one = claim(name);
    const two = claim(other);
    await expect.poll(() => [one.told, two.told], { timeout: 3000 }).toEqual([["mine"], ["mine"]]);
    const waits = claim(name);
    await expect.poll(() => waits.told, { timeout: 3000 }).toEqual(["elsewhere"]);
    waits.end();
    one.end();
    const third = claim(name);
    await expect.poll(() => third.told.at(-1), { timeout: 3000 }).toBe("mine");
    expect(waits.told).toEqual(["elsewhere"]);
  });
});

test("by messages, of two that ask at once one waits", async () => {
  vi.stubGlobal("navigator", {});
  const name = `plan ${++names}`;
  const both = [claim(name), claim(name)];
  await expect.poll(() => both.map(({ told }) => told.at(-1)).sort(), { timeout: 3000 }).toEqual(["elsewhere", "mine"]);
});

test("a browser with neither has every plan to itself", () => {
  vi.stubGlobal("navigator", {});
  vi.stubGlobal("BroadcastChannel", undefined);
  expect(claim("alone").told).toEqual(["mine"]);
});
