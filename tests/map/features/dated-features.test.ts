import { expect, test } from "vitest";
import { crownOf } from "../../../src/core/crown/crown.ts";
import type { TreeOnDate } from "../../../src/core/schedule/tree-on-date.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { crownFeatures } from "../../../src/map/features/crown-features.ts";
import { encroachmentFeatures } from "../../../src/map/features/encroachment-features.ts";
import { figureFeatures } from "../../../src/map/features/figure-features.ts";
import { type DatedTrees, planLook } from "../../../src/map/features/plan-look.ts";
import { markChanges } from "../../../src/map/on-map/mark-changes.ts";
import { DEFAULT_WORDS } from "../../../src/map/words.ts";
import { smallOpenedPlan } from "../small-opened-plan.ts";

const opened = smallOpenedPlan();
const { plan } = opened;
const rows = plan.trees.map(({ row }) => row);
const withPart = plan.conflicts.find(({ encroachment }) => encroachment !== null)!;

/** Every tree a meter wider, calm and visited once, but for the given one, which is as the plan has it. */
function dated(asInPlan: number): DatedTrees {
  const planned = (row: number): TreeOnDate => ({
    urgency: plan.prescriptions[row]!.urgency,
    overdue: plan.prescriptions[row]!.overdue,
    ahead: plan.prescriptions[row]!.visits as never,
    done: [],
    workedIds: new Set(),
  });
  return {
    date: isoDate("2031-05-01"),
    treeOn: (row) =>
      row === asInPlan
        ? planned(row)
        : {
            urgency: "watch",
            overdue: false,
            ahead: [],
            done: [{ on: isoDate("2027-05-01"), tasks: [] }],
            workedIds: new Set(
              plan.conflicts.filter(({ treeRow }) => treeRow === row).map(({ conflictId }) => conflictId),
            ),
          },
    crownOn: (row) => {
      const crown = crownOf(plan.trees[row]!);
      return { ...crown, radii: { ...crown.radii, northM: crown.radii.northM + 1 } };
    },
  };
}

const now = planLook(opened)!;
const then = planLook(opened, dated(withPart.treeRow))!;

test("marks take the urgency of the date, and only those that change are to be changed", () => {
  expect(then.marks.filter(({ urgency }) => urgency === "watch").length).toBeGreaterThanOrEqual(59);
  const changes = markChanges(now.marks, then.marks)!;
  expect(changes.map(({ id }) => id)).not.toContain(plan.trees[withPart.treeRow]!.id);
  const changed = new Set(changes.map(({ id }) => id));
  for (const [row, mark] of then.marks.entries()) {
    const isSame = JSON.stringify(mark) === JSON.stringify(now.marks[row]);
    expect(changed.has(mark.tree)).toBe(!isSame);
  }
  expect(markChanges(now.marks, now.marks)).toEqual([]);
});

test("crowns are drawn as wide as on the date, of the trees asked for", () => {
  const north = (look: typeof now) => {
    const ring = crownFeatures(look, [0]).features[0]!.geometry.coordinates[0]!;
    return Math.max(...ring.map(([, latDeg]) => latDeg!));
  };
  // A meter is 9.0e-6 degrees of latitude.
  expect(north(then) - north(now)).toBeCloseTo(9e-6, 7);
  expect(crownFeatures(then, [0, 1]).features.filter(({ properties }) => properties?.part === "crown")).toHaveLength(2);
});

test("what a visit worked on by then is no encroachment any more, and its figure is history", () => {
  const left = encroachmentFeatures(then, rows).features.map(({ properties }) => properties?.tree);
  expect(new Set(left)).toEqual(new Set([withPart.treeId]));
  expect(encroachmentFeatures(now, rows).features.length).toBeGreaterThan(left.length);
  const figures = figureFeatures(then, rows, "metric", DEFAULT_WORDS).features.map(
    ({ properties }) => properties?.tree,
  );
  expect(figures.every((tree) => tree === withPart.treeId)).toBe(true);
});
