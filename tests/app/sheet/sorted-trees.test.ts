import { expect, test } from "vitest";
import { planIndex } from "../../../src/app/plan-index.ts";
import { SORTS, type Sort, sortedTrees } from "../../../src/app/sheet/sorted-trees.ts";
import { nextWork } from "../../../src/app/tree-filter.ts";
import { URGENCIES } from "../../../src/core/model/terms.ts";
import { openPlan } from "../../../src/formats/plan/open-plan.ts";
import { memorySource } from "../../../src/formats/plan/plan-source.ts";
import { smallPlanFiles } from "../small-plan.ts";

const { trees } = planIndex(await openPlan(memorySource(smallPlanFiles(60))));
const idsBy = (by: Sort) => sortedTrees(trees, by).map(({ tree }) => tree.id);

test.each(SORTS)("by %s has every tree once, however they stood before", (by) => {
  const ids = idsBy(by);
  expect(new Set(ids).size).toBe(60);
  expect(sortedTrees([...trees].reverse(), by).map(({ tree }) => tree.id)).toEqual(ids);
});

test("by urgency puts the most urgent first, and of those what is due first", () => {
  const keys = sortedTrees(trees, "urgency").map((entry) => {
    const day = nextWork(entry)?.due ?? "9999";
    return `${URGENCIES.indexOf(entry.urgency)} ${day}`;
  });
  expect(keys).toEqual([...keys].sort());
});

test("by due date puts what is due first, and trees without a visit last", () => {
  const dues = sortedTrees(trees, "due").map((entry) => nextWork(entry)?.due ?? "9999");
  expect(dues).toEqual([...dues].sort());
  expect(dues.at(-1)).toBe("9999");
});

test("by dose and by hours puts the most first", () => {
  const [first, second, ...others] = trees.filter((entry) => nextWork(entry) !== undefined);
  const more = { ...first!, work: first!.work.map((item) => ({ ...item, doseShare: 0.2, hours: 1 })) };
  const longer = { ...second!, work: second!.work.map((item) => ({ ...item, doseShare: 0.1, hours: 4 })) };
  const all = [...others, longer, more];
  expect(sortedTrees(all, "dose")[0]!.tree.id).toBe(first!.tree.id);
  expect(sortedTrees(all, "hours")[0]!.tree.id).toBe(second!.tree.id);
});

test("by street sorts names as people do, with numbers in their order", () => {
  const streets = ["10th Street", "2nd Street", "Ash Lane"];
  const named = trees.slice(0, 3).map((entry, at) => ({ ...entry, tree: { ...entry.tree, street: streets[at]! } }));
  expect(sortedTrees(named, "street").map(({ tree }) => tree.street)).toEqual([
    "2nd Street",
    "10th Street",
    "Ash Lane",
  ]);
  const without = { ...trees[3]!, tree: { ...trees[3]!.tree, street: null } };
  expect(sortedTrees([without, ...named], "street").at(-1)!.tree.street).toBeNull();
});
