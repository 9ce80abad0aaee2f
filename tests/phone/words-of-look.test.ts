import { describe, expect, it } from "vitest";
import type { PhonePage } from "../../src/core/packet/phone/phone-page.ts";
import { parseCompletion } from "../../src/core/plan/completion/parse-completion.ts";
import { completionOf } from "../../src/phone/completion-of.ts";
import { emptyMarks, type Marks, NO_VISIT_MARK, type VisitMark } from "../../src/phone/keep/marks.ts";

const page = {
  isInspection: true,
  planId: "p",
  revision: 2,
  zoneId: "i-1",
  units: "us",
  stops: [
    { visitId: "A/inspect", treeId: "A", number: 1 },
    { visitId: "B/inspect", treeId: "B", number: 2 },
  ],
} as unknown as PhonePage;
const marksOf = (visits: Record<string, Partial<VisitMark>>): Marks => {
  const marks = emptyMarks("r1");
  return {
    ...marks,
    zone: { ...marks.zone, who: "K. Birch" },
    visits: new Map(Object.entries(visits).map(([id, mark]) => [id, { ...NO_VISIT_MARK, ...mark }])),
  };
};
const made = (marks: Marks) =>
  completionOf(page, marks, { appVersion: "0.1.0", exportedAt: "2026-12-01T10:00:00Z" }).completion;

describe("what an inspection round hands back", () => {
  it("is words: a measurement a figure and what was found, and no visits", () => {
    const completion = made(
      marksOf({
        "A/inspect": { outcome: "done", date: "2026-12-01", crownBase: "15 ft", headroom: "14", found: "conflict" },
      }),
    );
    expect(completion.visits).toEqual([]);
    expect(completion.words?.map(({ treeId, on, by, kind, value }) => [treeId, on, by, kind, value])).toEqual([
      ["A", "2026-12-01", "K. Birch", "measurement", { of: "crown-base", valueM: 4.572 }],
      ["A", "2026-12-01", "K. Birch", "measurement", { of: "headroom", valueM: 4.267 }],
      ["A", "2026-12-01", "K. Birch", "inspected", { conflictIds: [], found: "conflict" }],
    ]);
    expect(parseCompletion(JSON.parse(JSON.stringify(completion)))).toHaveProperty("completion");
  });

  it("keeps the ids of words while the marks stay, and gives a changed figure one of its own", () => {
    const idsOf = (base: string) =>
      made(marksOf({ "A/inspect": { outcome: "done", crownBase: base } })).words!.map(({ wordId }) => wordId);
    expect(idsOf("15 ft")).toEqual(idsOf("15 ft"));
    expect(idsOf("16 ft")[0]).not.toBe(idsOf("15 ft")[0]);
  });

  it("says in a note what could not be read and why a tree was not reached", () => {
    const { words } = made(
      marksOf({
        "A/inspect": { outcome: "done", height: "tall" },
        "B/inspect": { outcome: "not-done", reason: "no-access" },
      }),
    );
    expect(words?.map(({ treeId, kind }) => [treeId, kind])).toEqual([
      ["A", "inspected"],
      ["A", "note"],
      ["B", "note"],
    ]);
    expect(JSON.stringify(words)).toContain("tall");
    expect(JSON.stringify(words)).toContain("No access");
  });
});
