import { expect, test } from "vitest";
import { type IndexedTree, planIndex } from "../../../src/app/plan-index.ts";
import { countTrees } from "../../../src/app/sheet/count-trees.ts";
import { itemInBrief } from "../../../src/app/sheet/item-in-brief.ts";
import { datedIndex } from "../../../src/app/time/dated-index.ts";
import { NO_FILTER, nextWork, passes } from "../../../src/app/tree-filter.ts";
import { forecastVisits } from "../../../src/core/schedule/forecast-visits.ts";
import { Outlook } from "../../../src/core/schedule/outlook.ts";
import type { World } from "../../../src/core/schedule/tree-on-date.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { openPlan } from "../../../src/formats/plan/open-plan.ts";
import { memorySource } from "../../../src/formats/plan/plan-source.ts";
import { AS_OF, smallPlanFiles } from "../small-plan.ts";

const index = planIndex(await openPlan(memorySource(smallPlanFiles(30))));
const { plan } = index.opened;
const standard = usCommon();
const visits = forecastVisits(plan.trees, plan.prescriptions, plan.conflicts, plan.settings, standard, plan.options);
const outlook = new Outlook(plan, standard, visits);
const on = async (date: string, world: World) =>
  (await datedIndex(index, outlook.on(isoDate(date), world), () => true))!;
const hasVisit = (entry: IndexedTree) => entry.prescription.visits.length > 0;

test("on the as-of date every tree has the plan's visits before it, and what is forecast after them", async () => {
  const { trees } = await on(AS_OF, "nothing-done");
  for (const { tree, work } of trees) {
    expect(work.every(({ isDone }) => !isDone)).toBe(true);
    expect(work.flatMap(({ visit }) => visit ?? [])).toEqual(index.treeById.get(tree.id)!.prescription.visits);
    expect(work.findIndex(({ visit }) => visit === null) === -1 || work.at(-1)!.visit === null).toBe(true);
  }
});

test("as planned, visits that were due are done and told as done; the next is what is ahead", async () => {
  // The visit of row r falls due r months after 2 November 2026: on 1 May 2027 those of rows 0 to 5 have been.
  const { trees, treeById } = await on("2027-05-01", "as-planned");
  expect(trees).toHaveLength(30);
  for (const entry of trees.filter(hasVisit)) {
    expect(entry.work[0]!.isDone, entry.tree.id).toBe(entry.tree.row <= 5);
    expect(nextWork(entry)?.isDone ?? false).toBe(false);
    expect(entry.overdue).toBe(false);
  }
  const done = treeById.get("T-1")!;
  expect(itemInBrief(done, done.work[0], "us")).toMatch(/of the crown/);
  expect(itemInBrief({ ...done, work: done.work.slice(0, 1) }, undefined, "us")).toBe("Done as planned");
});

test("with nothing done they are overdue, and the filters say so", async () => {
  const { trees } = await on("2027-05-01", "nothing-done");
  const overdue = trees.filter((entry) =>
    passes(entry, { ...NO_FILTER, due: "overdue" }, AS_OF, isoDate("2027-05-01")),
  );
  expect(overdue.map(({ tree }) => tree.row).sort((one, other) => one - other)).toEqual(
    index.trees
      .filter((entry) => hasVisit(entry) && entry.tree.row <= 5)
      .map(({ tree }) => tree.row)
      .sort((one, other) => one - other),
  );
});

test("months in the past keep the trees whose visits are done by then", async () => {
  const { trees } = await on("2027-05-01", "as-planned");
  const months = { from: "2026-12", to: "2026-12" };
  const due = (entry: IndexedTree) => passes(entry, { ...NO_FILTER, months }, AS_OF, isoDate("2027-05-01"));
  expect(trees.filter(due).map(({ tree }) => tree.id)).toEqual(["T-2"]);
});

test("is given up when something else is wanted meanwhile", async () => {
  const many = { ...index, trees: Array.from({ length: 3000 }, () => index.trees).flat() };
  expect(await datedIndex(many, outlook.on(isoDate("2030-05-01"), "as-planned"), () => false)).toBeNull();
});

test("filters by street, species, zone and when the next work is due", () => {
  const count = (part: Partial<typeof NO_FILTER>) =>
    index.trees.filter((entry) => passes(entry, { ...NO_FILTER, ...part }, AS_OF)).length;
  // Two streets and three species come round; the zone has six trees.
  expect(count({ street: "Water Street" })).toBe(15);
  expect(count({ species: "English oak" })).toBe(10);
  expect(count({ zoneId: "Z-1" })).toBe(6);
  expect(count({ street: "Water Street", species: "English oak" })).toBe(5);
  // Within 90 days of 2 November 2026, so by 31 January: rows 0, 1 and 2 are due on 2 November, December and January.
  expect(count({ due: 90 })).toBe(index.trees.filter((entry) => hasVisit(entry) && entry.tree.row <= 2).length);
  expect(count({ due: "overdue" })).toBe(0);
});

test("counts streets and species, and crews only of work to come", async () => {
  const counts = countTrees(index.trees);
  expect(counts.streets.get("Chapel Street")).toBe(15);
  expect(counts.species.get("red maple")).toBe(10);
  const later = countTrees((await on("2036-10-01", "as-planned")).trees);
  expect([...later.crews.values()].reduce((sum, trees) => sum + trees, 0)).toBeLessThanOrEqual(
    [...counts.crews.values()].reduce((sum, trees) => sum + trees, 0),
  );
});
