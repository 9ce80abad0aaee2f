import { expect, test } from "vitest";
import { marksInView } from "../../../src/app/large/marks-in-view.ts";

const mark = (tree: string, over: object = {}) => ({
  properties: { tree, urgency: "watch", remedy: "none", crew: "", due: "", overdue: false, turn: 0, order: 2, ...over },
});

test("each tree once, the most urgent first, then by due date and id", () => {
  const { marks, all } = marksInView(
    [
      mark("T-9"),
      mark("T-3", { urgency: "now", order: 5, due: "2027-02-01", crew: "aerial", overdue: true, turn: 90 }),
      mark("T-4", { urgency: "now", order: 5, due: "2026-12-01" }),
      mark("T-1"),
      mark("T-9"),
      { properties: { zone: "Z-1" } },
    ],
    10,
  );
  expect(marks.map(({ treeId }) => treeId)).toEqual(["T-4", "T-3", "T-1", "T-9"]);
  expect(all).toBe(4);
  expect(marks[1]).toEqual({
    treeId: "T-3",
    urgency: "now",
    remedy: "none",
    crew: "aerial",
    due: "2027-02-01",
    overdue: true,
    bearingDeg: 90,
    stands: 1,
  });
  expect(marks[2]!.crew).toBeNull();
  expect(marks[2]!.due).toBeNull();
});

test("what a mark stands for is counted, also beyond the lines that are asked for", () => {
  const list = marksInView([mark("T-1", { stands: 40 }), mark("T-2"), mark("T-3", { stands: 2 })], 2);
  expect(list.marks).toHaveLength(2);
  expect({ all: list.all, trees: list.trees }).toEqual({ all: 3, trees: 43 });
});
