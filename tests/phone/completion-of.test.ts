import { describe, expect, test } from "vitest";
import { checkCompletion } from "../../src/core/plan/completion/check-completion.ts";
import { parseCompletion } from "../../src/core/plan/completion/parse-completion.ts";
import type { DisplayUnits } from "../../src/core/units/format-length.ts";
import { completionOf } from "../../src/phone/completion-of.ts";
import { emptyMarks, type Marks, NO_VISIT_MARK, type VisitMark } from "../../src/phone/keep/marks.ts";
import { smallPlan } from "../core/packet/small-plan.ts";
import { smallPage } from "./phone-sample.ts";

const AT = "2027-03-12T14:05:00.000Z";
const [first, second] = smallPage.stops.map(({ visitId }) => visitId) as [string, string];
const marks = (visits: Record<string, Partial<VisitMark>>, change: Partial<Marks> = {}): Marks => ({
  ...emptyMarks("report"),
  visits: new Map(Object.entries(visits).map(([id, mark]) => [id, { ...NO_VISIT_MARK, at: AT, ...mark }])),
  ...change,
});
const made = (of: Marks, units: DisplayUnits = "metric") =>
  completionOf({ ...smallPage, units }, of, { appVersion: "0.1.0", exportedAt: "2027-03-12T16:00:00Z" });

describe("completionOf", () => {
  test("writes meters, shares and dates that the reader of completions takes", () => {
    const { completion, missing } = made(
      marks({
        [first]: { outcome: "done", date: "2027-03-12", crownBase: "15 ft", headroom: "14'6\"", dose: "15 %" },
        [second]: { outcome: "partly", reason: "weather", date: "2027-03-13", photos: "a.jpg\n\n b.jpg " },
      }),
    );
    expect(missing).toEqual([]);
    // 15 ft = 4.572 m; 14 ft 6 in = 174 in = 4.4196 m, to the millimeter 4.42.
    expect(completion.visits[0]).toMatchObject({ crownBaseM: 4.572, headroomM: 4.42, doseShare: 0.15, reason: null });
    expect(completion.visits[1]).toMatchObject({ date: "2027-03-13", reason: "weather", photos: ["a.jpg", "b.jpg"] });
    expect(parseCompletion(JSON.parse(JSON.stringify(completion)))).toEqual({ completion });
    expect(checkCompletion(completion, smallPlan).filter(({ severity }) => severity === "error")).toEqual([]);
  });

  test("reads a bare number in the unit the page shows", () => {
    const visit = marks({ [first]: { outcome: "done", crownBase: "15", headroom: "4,5" } });
    expect(made(visit, "us").completion.visits[0]).toMatchObject({ crownBaseM: 4.572, headroomM: 1.372 });
    expect(made(visit, "metric").completion.visits[0]).toMatchObject({ crownBaseM: 15, headroomM: 4.5 });
  });

  test("keeps a figure that cannot be read in the notes", () => {
    const { completion } = made(marks({ [first]: { outcome: "done", crownBase: "about 5", notes: "ok" } }));
    expect(completion.visits[0]).toMatchObject({ crownBaseM: null, notes: "ok\nNew crown base, as typed: about 5" });
  });

  test("leaves out what nothing was said about, and tells what is missing", () => {
    const { completion, missing } = made(
      marks({ [first]: { notes: "  " }, [second]: { outcome: "not-done" }, unknown: { outcome: "done" } }),
    );
    expect(completion.visits).toEqual([]);
    expect(missing.map(({ number }) => number)).toEqual([2]);
    expect(made(marks({ [first]: { crownBase: "4" } })).missing.map(({ number }) => number)).toEqual([1]);
    expect(made(marks({ [first]: { outcome: "partly", reason: "other" } })).missing).toHaveLength(1);
  });

  test("hands on what the arborist on site says of a tree, whatever becomes of its visit, once for the same marks", () => {
    const of = marks(
      {
        [first]: { outcome: "done", word: "note", wordText: " Cavity on the north side. " },
        [second]: { word: "do-not-prune", wordText: "Owner and forester agreed to keep it.", date: "2027-03-11" },
      },
      { zone: { ...emptyMarks("report").zone, who: "R. Ashe" } },
    );
    const { completion, missing } = made(of);
    expect(missing).toEqual([]);
    expect(completion.visits.map(({ visitId }) => visitId)).toEqual([first]);
    expect(completion.words).toMatchObject([
      { kind: "note", by: "R. Ashe", on: "2027-03-12", value: { text: "Cavity on the north side." }, visitId: null },
      { kind: "do-not-prune", on: "2027-03-11", why: "Owner and forester agreed to keep it.", value: { until: null } },
    ]);
    expect(parseCompletion(JSON.parse(JSON.stringify(completion)))).toEqual({ completion });
    expect(made(of).completion.words).toEqual(completion.words);
    // Without a text nothing is said, and a report without words has no such member.
    expect(
      made(marks({ [first]: { outcome: "done", word: "do-not-prune", wordText: "  " } })).completion,
    ).not.toHaveProperty("words");
  });

  test("drops the reason of what was done after all", () => {
    const { completion } = made(marks({ [first]: { outcome: "done", reason: "nest" } }));
    expect(completion.visits[0]!.reason).toBeNull();
  });

  test("reports added trees and hazards, but none that was removed", () => {
    const added = { place: null, treeId: null, species: "", dbh: "", height: "", notes: "", photos: "", at: AT };
    const { completion } = made(
      marks(
        {},
        {
          added: [
            { ...added, id: "a", kind: "tree", removed: false, species: "Acer rubrum", dbh: "12", height: "30" },
            { ...added, id: "b", kind: "tree", removed: true },
            { ...added, id: "c", kind: "hazard", removed: false },
          ],
        },
      ),
      "us",
    );
    // 12 in = 0.3048 m and 30 ft = 9.144 m; both to the millimeter.
    expect(completion.addedTrees).toMatchObject([{ addedId: "a", dbhM: 0.305, heightM: 9.144 }]);
    expect(completion.hazards).toMatchObject([{ addedId: "c", notes: "Hazard reported without words" }]);
    expect("completion" in parseCompletion(JSON.parse(JSON.stringify(completion)))).toBe(true);
  });

  test("stays within what a reader takes, whatever is typed", () => {
    const long = "😀".repeat(3000);
    const { completion } = made(
      marks(
        { [first]: { outcome: "done", date: "soon", notes: long, photos: `${long}\n`.repeat(200), dose: "1e9" } },
        { zone: { ...emptyMarks("r").zone, who: long, crewHours: "x" } },
      ),
    );
    expect(parseCompletion(JSON.parse(JSON.stringify(completion)))).toEqual({ completion });
    expect(completion.visits[0]!.date).toBe("2027-03-12");
    expect(completion.crewHours).toBeNull();
  });
});
