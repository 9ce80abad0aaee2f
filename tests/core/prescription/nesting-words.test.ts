import { expect, test } from "vitest";
import { nestingWords } from "../../../src/core/prescription/nesting-words.ts";
import { standard, tree } from "./scene.ts";

const wordsAt = (latDeg: number, region: string | null) => nestingWords(tree({ latDeg }), standard, region);

test("nests are looked for in the season of the place: general, of the region, of the south, all year in the tropics", () => {
  expect(wordsAt(45, null)).toContain("from 15 Apr to 31 Jul (dates differ by region");
  expect(wordsAt(45, "US-NY")).toContain("from 15 Apr to 31 Jul");
  expect(wordsAt(34, "US-CA")).toContain("most birds 15 Feb to 31 Aug; raptors 1 Jan to 30 Sep");
  expect(wordsAt(39, "US-MO")).toContain("1 Apr to 15 Jul");
  // Six months on.
  expect(wordsAt(-35, null)).toContain("from 15 Oct to 31 Jan");
  expect(wordsAt(10, null)).toContain("at any time of year");
  for (const words of [wordsAt(45, null), wordsAt(34, "US-CA"), wordsAt(10, null)]) {
    expect(words).toContain("an active nest stops the work");
    expect(words).not.toContain("safe");
  }
});
