import { expect, test } from "vitest";
import { entryWords } from "../../../src/app/record/outcome-words.ts";
import type { VisitCompletion } from "../../../src/core/plan/completion/completion.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";

const ENTRY: VisitCompletion = {
  visitId: "T-1/v1",
  treeId: "T-1",
  outcome: "done",
  reason: null,
  date: isoDate("2026-11-20"),
  who: "R. Alder",
  crownBaseM: 4.2,
  headroomM: null,
  doseShare: 0.1,
  notes: "",
  photos: [],
  recordedAt: "2026-11-20T15:00:00Z",
};

test("an entry is told with its figures in the reader's units", () => {
  expect(entryWords(ENTRY, "metric")).toBe(
    "Done 20 Nov 2026 by R. Alder. Crown base 4.2 m, 10 % of the live crown taken.",
  );
  expect(entryWords(ENTRY, "us")).toBe(
    "Done 20 Nov 2026 by R. Alder. Crown base 13 ft 9 in, 10 % of the live crown taken.",
  );
});

test("work that is not done says why, and nothing of figures that nobody gave", () => {
  const notDone = {
    ...ENTRY,
    outcome: "not-done",
    reason: "nest",
    who: "",
    crownBaseM: null,
    doseShare: null,
  } as const;
  expect(entryWords(notDone, "us")).toBe("Not done 20 Nov 2026: active nest.");
});
