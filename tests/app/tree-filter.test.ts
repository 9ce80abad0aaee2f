import { describe, expect, test } from "vitest";
import { planIndex } from "../../src/app/plan-index.ts";
import { findMatches } from "../../src/app/title/find-matches.ts";
import { NO_FILTER, passes, type TreeFilter } from "../../src/app/tree-filter.ts";
import { openPlan } from "../../src/formats/plan/open-plan.ts";
import { memorySource } from "../../src/formats/plan/plan-source.ts";
import { AS_OF, smallPlanFiles } from "./small-plan.ts";

const index = planIndex(await openPlan(memorySource(smallPlanFiles(30))));
const count = (part: Partial<TreeFilter>) =>
  index.trees.filter((entry) => passes(entry, { ...NO_FILTER, ...part }, AS_OF)).length;

describe("planIndex", () => {
  test("puts the most urgent first, then what is due first", () => {
    const keys = index.trees.map(({ prescription }) => prescription.urgency);
    expect(keys.slice(0, 6)).toEqual(Array(6).fill("now"));
    expect(keys.at(-1)).toBe("clear");
    const dues = index.trees
      .filter((entry) => entry.prescription.urgency === "now")
      .flatMap((entry) => entry.prescription.visits[0]?.due ?? []);
    expect(dues).toEqual([...dues].sort());
  });

  test("knows each tree's conflicts and zone", () => {
    expect(index.treeById.get("T-1")?.conflicts.map((conflict) => conflict.kind)).toEqual(["roadway"]);
    expect(index.treeById.get("T-1")?.zone?.zoneId).toBe("Z-1");
    expect(index.treeById.get("T-5")?.conflicts).toEqual([]);
  });
});

describe("passes", () => {
  test("an open filter takes all", () => expect(count({})).toBe(30));
  // Five urgencies and three species come round: 30 / 5, 30 / 3.
  test("by urgency", () => expect(count({ urgencies: new Set(["now"]) })).toBe(6));
  test("by several urgencies", () => expect(count({ urgencies: new Set(["now", "watch"]) })).toBe(12));
  test("by species in any case", () => expect(count({ text: "LINDEN" })).toBe(10));
  // Every fifth tree is clear and without conflict; of the others the even rows meet a roadway: rows 0, 2, 6, 8, 10 ...
  test("by kind", () => expect(count({ kinds: new Set(["roadway"]) })).toBe(12));
  // The visit of row r falls due r months after November 2026; row 1 is next-window work.
  test("by month", () => expect(count({ months: { from: "2026-12", to: "2026-12" } })).toBe(1));
  test("crew and month must meet in one visit", () => {
    expect(count({ crews: new Set(["aerial"]), months: { from: "2026-12", to: "2026-12" } })).toBe(1);
    expect(count({ crews: new Set(["utility"]), months: { from: "2026-12", to: "2026-12" } })).toBe(0);
  });
});

describe("findMatches", () => {
  test("finds nothing for nothing", () => expect(findMatches(index, "  ")).toEqual([]));
  test("finds species with their count", () => {
    expect(findMatches(index, "oak")).toEqual([{ type: "species", text: "English oak", trees: 10 }]);
  });
  test("finds streets with their count", () => {
    expect(findMatches(index, "wat")).toEqual([{ type: "street", text: "Water Street", trees: 15 }]);
  });
  test("puts ids that begin with the text first, at most four", () => {
    const found = findMatches(index, "t-2").filter((match) => match.type === "tree");
    expect(found).toHaveLength(4);
    expect(found.every((match) => match.treeId.startsWith("T-2"))).toBe(true);
  });
});
