import { describe, expect, it } from "vitest";
import { drawnTrees } from "../../../../src/core/plan/acceptance/drawn-trees.ts";
import { type GivenCheck, previewChecks, takeChecks } from "../../../../src/core/plan/acceptance/preview-checks.ts";
import { openReworks } from "../../../../src/core/plan/acceptance/with-rework.ts";
import { zoneAcceptance } from "../../../../src/core/plan/acceptance/zone-acceptance.ts";
import { readRecord, recordText } from "../../../../src/core/plan/record/record-lines.ts";
import { EMPTY_RECORD, type RecordedVisit, type WorkRecord } from "../../../../src/core/plan/record/work-record.ts";
import { acceptanceSize } from "../../../../src/core/standard/acceptance-size.ts";
import { usCommon } from "../../../../src/core/standard/parse-standard.ts";
import { isoDate } from "../../../../src/core/units/calendar.ts";

const RULES = usCommon().acceptance;
const ids = (count: number): string[] => Array.from({ length: count }, (_, at) => `T-${String(at).padStart(4, "0")}`);

const done = (treeId: string, visitId = `${treeId}/v1`, date = "2027-01-10"): RecordedVisit => ({
  reportId: `r-${visitId}`,
  exportedAt: "2027-01-10T12:00:00Z",
  fromRevision: 1,
  revision: 2,
  zoneId: "z",
  entry: {
    visitId,
    treeId,
    outcome: "done",
    reason: null,
    date: isoDate(date),
    who: "R. Alder",
    crownBaseM: null,
    headroomM: null,
    doseShare: null,
    notes: "",
    photos: [],
    recordedAt: "2027-01-10T12:00:00Z",
  },
  planned: { crew: "aerial", hours: 1, doseShare: 0.1, due: isoDate("2027-02-01"), tasks: [] },
  replacedIn: null,
  decided: null,
});
const recordOf = (visits: readonly RecordedVisit[]): WorkRecord => ({ ...EMPTY_RECORD, visits });
const row = (treeId: string, more: Partial<GivenCheck> = {}): GivenCheck => ({
  file: "checks.csv",
  sha256: "ab",
  line: 2,
  zoneId: null,
  treeId,
  visitId: null,
  result: "passed",
  reason: "",
  on: isoDate("2027-01-20"),
  by: "K. Birch",
  notes: "",
  ...more,
});
const take = (record: WorkRecord, revision: number, ...rows: GivenCheck[]): WorkRecord =>
  takeChecks(record, previewChecks(rows, record), revision).record;

describe("the size of a sample", () => {
  it("is a fifth, rounded up, three at least, all where there are fewer", () => {
    expect([0, 1, 2, 3, 4, 15, 16, 20, 21].map((trees) => acceptanceSize(trees, RULES))).toEqual([
      0, 1, 2, 3, 3, 3, 4, 4, 5,
    ]);
  });
});

describe("the lot", () => {
  it("is the same in whatever order trees are given, and another for another plan or zone", () => {
    const trees = ids(40);
    const drawn = drawnTrees("plan", "zone", trees);
    expect(drawnTrees("plan", "zone", [...trees].reverse())).toEqual(drawn);
    expect([...drawn].sort()).toEqual(trees);
    expect(drawnTrees("plan", "zone-2", trees).slice(0, 8)).not.toEqual(drawn.slice(0, 8));
    expect(drawnTrees("plan-2", "zone", trees).slice(0, 8)).not.toEqual(drawn.slice(0, 8));
  });

  it("keeps its order when a tree joins or leaves", () => {
    const drawn = drawnTrees("plan", "zone", ids(40));
    expect(drawnTrees("plan", "zone", ids(39))).toEqual(drawn.filter((id) => id !== "T-0039"));
  });

  it("prefers nobody: over 4,000 zones of 10 trees each tree is drawn first about equally often", () => {
    const counts = new Map<string, number>();
    for (let zone = 0; zone < 4000; zone += 1) {
      const [first] = drawnTrees("plan", `z-${zone}`, ids(10));
      counts.set(first!, (counts.get(first!) ?? 0) + 1);
    }
    const chiSquared = [...counts.values()].reduce((sum, count) => sum + (count - 400) ** 2 / 400, 0);
    // 9 degrees of freedom: 27.9 is passed once in a thousand.
    expect(counts.size).toBe(10);
    expect(chiSquared).toBeLessThan(27.9);
  });
});

describe("the acceptance of a zone", () => {
  const work = recordOf(ids(10).map((id) => done(id)));

  it("asks for three of ten, and is accepted when they passed", () => {
    const open = zoneAcceptance("p", "z", work, RULES);
    expect([open.finished, open.trees.length, open.toCheck, open.isAccepted]).toEqual([10, 3, 3, false]);
    const checked = take(work, 3, ...open.trees.map(({ treeId }) => row(treeId)));
    expect(zoneAcceptance("p", "z", checked, RULES)).toMatchObject({ passed: 3, toCheck: 0, isAccepted: true });
  });

  it("draws one more tree for each that did not pass, and holds the failed one until its rework passed", () => {
    const [first] = zoneAcceptance("p", "z", work, RULES).trees;
    const failed = take(work, 3, row(first!.treeId, { result: "rework", reason: "Stubs left" }));
    expect(zoneAcceptance("p", "z", failed, RULES)).toMatchObject({ rework: 1, toCheck: 3, isAccepted: false });
    const again = { ...failed, visits: [...failed.visits, done(first!.treeId, `${first!.treeId}/v1r`, "2027-02-01")] };
    const after = zoneAcceptance("p", "z", again, RULES);
    expect(after).toMatchObject({ rework: 0, toCheck: 4, finished: 10 });
    expect(after.trees[0]).toMatchObject({ treeId: first!.treeId, failedBefore: 1, check: null });
  });

  it("takes in a check of a tree that was not drawn", () => {
    const drawn = zoneAcceptance("p", "z", work, RULES).trees.map(({ treeId }) => treeId);
    const other = ids(10).find((id) => !drawn.includes(id))!;
    expect(zoneAcceptance("p", "z", take(work, 3, row(other)), RULES)).toMatchObject({ passed: 1, toCheck: 3 });
  });
});

describe("checks taken into the record", () => {
  const work = recordOf([done("A"), done("B")]);
  const statuses = (record: WorkRecord, ...rows: GivenCheck[]): string[] =>
    previewChecks(rows, record).map(({ status }) => status);

  it("are taken once, and a later one takes the place of an earlier one, which stays in the record", () => {
    const failed = take(work, 3, row("A", { result: "rework", reason: "Stubs left" }));
    expect(statuses(failed, row("A", { result: "rework", reason: "Stubs left" }))).toEqual(["already-taken"]);
    expect(openReworks(failed).get("A")?.check.reason).toBe("Stubs left");
    const passed = take(failed, 4, row("A", { on: isoDate("2027-01-21") }));
    expect(passed.checks?.map(({ result, replacedIn }) => [result, replacedIn])).toEqual([
      ["rework", 4],
      ["passed", null],
    ]);
    expect(openReworks(passed).size).toBe(0);
  });

  it("are refused where nobody reported the work, before the work, of another tree, and against one of the same day", () => {
    expect(statuses(work, row("C"))).toEqual(["refused"]);
    expect(statuses(work, row("A", { on: isoDate("2027-01-09") }))).toEqual(["refused"]);
    expect(statuses(work, row("B", { visitId: "A/v1" }))).toEqual(["refused"]);
    expect(statuses(take(work, 3, row("A")), row("A", { result: "rework", reason: "x" }))).toEqual(["refused"]);
  });

  it("end a rework when its own visit is reported done", () => {
    const failed = take(work, 3, row("A", { result: "rework", reason: "Stubs left" }));
    expect(openReworks({ ...failed, visits: [...failed.visits, done("A", "A/v1r", "2027-02-01")] }).size).toBe(0);
  });

  it("come back from the text of the record, whose format older readers refuse", () => {
    const checked = take(work, 3, row("A"));
    expect(readRecord(recordText(checked))).toEqual(checked);
    expect(recordText(checked).split("\n")[0]).toBe('{"format":3}');
    expect(recordText(work).split("\n")[0]).toBe('{"format":1}');
  });
});
