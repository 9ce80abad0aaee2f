import { describe, expect, it } from "vitest";
import { planIndex, prepareIndex } from "../../src/app/plan-index.ts";
import type { OpenedPlan } from "../../src/formats/plan/open-plan.ts";
import { planLook, rezonedLook } from "../../src/map/features/plan-look.ts";
import { smallOpenedPlan } from "../map/small-opened-plan.ts";

const opened = smallOpenedPlan();
const [first, second, ...others] = opened.plan.zones;

/** The same plan after a tree was moved from the first zone to the second, and the last zone was taken away. */
const edited: OpenedPlan = {
  ...opened,
  plan: {
    ...opened.plan,
    zones: [
      { ...first!, treeIds: first!.treeIds.slice(1) },
      { ...second!, treeIds: [...second!.treeIds, first!.treeIds[0]!] },
      ...others.slice(0, -1),
    ],
  },
};

describe("an index that follows an edit of zones", () => {
  it("is what one built from scratch is", () => {
    const before = planIndex(opened);
    const after = planIndex(edited, before);
    const scratch = planIndex(edited);
    expect(after.trees).toEqual(scratch.trees);
    expect([...after.treeById].sort()).toEqual([...scratch.treeById].sort());
    expect(after.zoneById).toEqual(scratch.zoneById);
    expect(after.opened).toBe(edited);
  });

  it("keeps the entries of trees in zones that stay as they were", () => {
    const before = planIndex(opened);
    const after = planIndex(edited, before);
    const touched = new Set([...first!.treeIds, ...second!.treeIds, ...(others.at(-1)?.treeIds ?? [])]);
    for (const [at, entry] of before.trees.entries())
      expect([entry.tree.id, after.trees[at] === entry]).toEqual([entry.tree.id, !touched.has(entry.tree.id)]);
  });

  it("goes back to the first by the reverse edit", () => {
    const before = planIndex(opened);
    expect(planIndex(opened, planIndex(edited, before))).toEqual(before);
  });

  it("is built from scratch for other trees", () => {
    const other = { ...opened, plan: { ...opened.plan, trees: [...opened.plan.trees] } };
    expect(planIndex(other, planIndex(opened))).toEqual(planIndex(other));
  });

  it("is ready where it was prepared", async () => {
    let turns = 0;
    const plan = { ...opened };
    await prepareIndex(plan, async () => {
      turns += 1;
    });
    expect(turns).toBeGreaterThan(0);
    expect(planIndex(plan)).toEqual({ ...planIndex(opened), opened: plan });
    expect(planIndex(plan)).toBe(planIndex(plan));
  });
});

describe("marks that follow an edit of zones", () => {
  it("are what marks made from scratch are, the others the same objects", () => {
    const before = planLook(opened)!;
    const after = rezonedLook(before, edited);
    expect(after).toEqual(planLook(edited));
    const same = after.marks.filter((mark, row) => mark === before.marks[row]);
    expect(same.length).toBe(60 - 1 - (others.at(-1)?.treeIds.length ?? 0));
  });
});
