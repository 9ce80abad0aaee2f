import { expect, test } from "vitest";
import { completionProblem, damagedReport, soundReport } from "./completion-problem.ts";
import { randomFrom } from "./random.ts";

const RUNS = 600;

test("a sound report passes", async () => {
  expect(await completionProblem(soundReport())).toBeNull();
});

test(`${RUNS} damaged reports, seed 3, never break what is promised`, { timeout: 120_000 }, async () => {
  const problems: string[] = [];
  for (let run = 0; run < RUNS; run += 1) {
    const problem = await completionProblem(damagedReport(randomFrom(3_000_009 + run)));
    if (problem !== null) problems.push(`run ${run}: ${problem}`);
  }
  expect(problems).toEqual([]);
});
