import { existsSync, readdirSync, readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { prepare, problemOf } from "./invariants.ts";
import { type FuzzCase, makeCase } from "./make-case.ts";
import { randomFrom } from "./random.ts";

const RUNS = 2000;
const FOUND = "tests/bad-input/found/";

beforeAll(prepare);

describe(`${RUNS} damaged inputs, seed 2`, () => {
  it("never break what is promised", { timeout: 300_000 }, async () => {
    const problems: string[] = [];
    for (let run = 0; run < RUNS; run += 1) {
      const problem = await problemOf(makeCase(randomFrom(2_000_006 + run)));
      if (problem !== null) problems.push(`run ${run}: ${problem}`);
    }
    expect(problems).toEqual([]);
  });
});

describe("what fuzzing found earlier", () => {
  const names = existsSync(FOUND) ? readdirSync(FOUND).filter((name) => name.endsWith(".json")) : [];
  it.each(names)("%s is mended", async (name) => {
    const told = JSON.parse(readFileSync(FOUND + name, "utf8")) as Omit<FuzzCase, "bytes">;
    const bytes = new Uint8Array(readFileSync(FOUND + name.replace(/json$/, "geojson")));
    expect(await problemOf({ ...told, bytes })).toBeNull();
  });
  it("is kept beside the corpus", () => {
    expect(names.every((name) => existsSync(FOUND + name.replace(/json$/, "geojson")))).toBe(true);
  });
});
