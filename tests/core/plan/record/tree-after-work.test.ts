import { describe, expect, test } from "vitest";
import { treeAfterWork } from "../../../../src/core/plan/record/tree-after-work.ts";
import type { PlannedTask, RecordedVisit } from "../../../../src/core/plan/record/work-record.ts";
import { isoDate } from "../../../../src/core/units/calendar.ts";
import { smallPlan, smallZone } from "../../packet/small-plan.ts";
import { reported } from "../completion/sample-completion.ts";

const base = {
  ...smallPlan.trees.find(({ id }) => id === smallZone.treeIds[0])!,
  lastPruned: null,
  lastDoseShare: null,
};
const task = (change: Partial<PlannedTask>): PlannedTask => ({
  taskId: `${base.id}/t1`,
  remedy: "shorten",
  conflictIds: [`roadway:${base.id}:roads/R-1`],
  belowM: 5,
  targetM: 5,
  doseShare: 0.1,
  lastsYears: 5,
  ...change,
});
const recorded = (
  change: Partial<RecordedVisit["entry"]> = {},
  tasks: readonly PlannedTask[] = [task({})],
  visit: Partial<RecordedVisit> = {},
): RecordedVisit => ({
  reportId: "r1",
  exportedAt: "2027-03-12T16:00:00Z",
  fromRevision: 1,
  revision: 2,
  zoneId: "z-1",
  entry: { ...reported(0), visitId: `${base.id}/v1`, treeId: base.id, ...change },
  planned: { crew: "ground", hours: 0.5, doseShare: 0.1, due: isoDate("2027-04-01"), tasks },
  replacedIn: null,
  decided: null,
  ...visit,
});

test("nothing recorded leaves the tree as it was", () => {
  expect(treeAfterWork(base, []).tree).toBe(base);
});

describe("done work", () => {
  test("sets date and dose, the planned one where none was reported", () => {
    expect(treeAfterWork(base, [recorded()]).tree).toMatchObject({ lastPruned: "2027-03-12", lastDoseShare: 0.1 });
    expect(treeAfterWork(base, [recorded({ doseShare: 0.17 })]).tree.lastDoseShare).toBeCloseTo(0.17, 12);
  });

  test("adds to what was taken in the 12 months before, each of what the one before left", () => {
    const pruned = { ...base, lastPruned: isoDate("2026-04-01"), lastDoseShare: 0.1 };
    // 1 - 0.9 * 0.9 = 0.19.
    expect(treeAfterWork(pruned, [recorded()]).tree.lastDoseShare).toBeCloseTo(0.19, 12);
    const long = { ...base, lastPruned: isoDate("2026-03-12"), lastDoseShare: 0.1 };
    expect(treeAfterWork(long, [recorded()]).tree.lastDoseShare).toBeCloseTo(0.1, 12);
    const unknown = { ...base, lastPruned: isoDate("2026-04-01"), lastDoseShare: null };
    expect(treeAfterWork(unknown, [recorded()]).tree.lastDoseShare).toBeNull();
  });

  test("adds what was taken when the visit was partly done", () => {
    const part = recorded({ outcome: "partly", reason: "weather", date: isoDate("2027-03-10"), doseShare: 0.05 });
    // 1 - 0.95 * 0.96 = 0.088.
    expect(treeAfterWork(base, [part, recorded({ doseShare: 0.04 })]).tree.lastDoseShare).toBeCloseTo(0.088, 12);
  });

  test("takes a measured crown base, never nearer than 0.3 m to the top", () => {
    expect(treeAfterWork(base, [recorded({ crownBaseM: 3 })]).tree.crownBase).toEqual({
      valueM: 3,
      lowM: 2.7,
      highM: 3.3,
      basis: "measured",
      source: "measured by crew, 2027-03-12",
    });
    const top = base.height.valueM;
    expect(treeAfterWork(base, [recorded({ crownBaseM: top })]).tree.crownBase.valueM).toBeCloseTo(top - 0.3, 12);
  });

  test("assumes a lift as prescribed where it was not measured, and no other remedy", () => {
    const lift = task({ remedy: "lift", belowM: base.crownBase.valueM + 1 });
    expect(treeAfterWork(base, [recorded({}, [lift])]).tree.crownBase).toMatchObject({
      valueM: base.crownBase.valueM + 1,
      basis: "assumed",
      source: "as prescribed, reported done 2027-03-12",
    });
    expect(treeAfterWork(base, [recorded()]).tree.crownBase).toBe(base.crownBase);
  });

  test("counts a measured headroom for the road it cleared, else for the walk", () => {
    const walk = task({ conflictIds: [`walkway:${base.id}:paths/P-1`] });
    const onRoad = treeAfterWork(base, [recorded({ headroomM: 4.9 }, [walk, task({})])]);
    expect(onRoad.tree.headroomOverRoadM).toBe(4.9);
    expect(onRoad.cleared.get(`roadway:${base.id}:roads/R-1`)?.measuredM).toBe(4.9);
    expect(onRoad.cleared.get(`walkway:${base.id}:paths/P-1`)?.measuredM).toBeNull();
    const onWalk = treeAfterWork(base, [recorded({ headroomM: 3.1 }, [walk])]);
    expect(onWalk.tree.headroomOverRoadM).toBe(base.headroomOverRoadM);
    expect(onWalk.cleared.get(`walkway:${base.id}:paths/P-1`)?.measuredM).toBe(3.1);
  });

  test("treats the defects that its tasks name, and leaves the others", () => {
    const ill = { ...base, defects: ["dead-limb", "included-bark"] as const };
    const remedial = task({ taskId: `${base.id}/dead-limb`, remedy: "remedial", conflictIds: [], targetM: null });
    expect(treeAfterWork(ill, [recorded({}, [remedial])]).tree.defects).toEqual(["included-bark"]);
  });
});

describe("work that is not done", () => {
  test("changes no size, and stays open until the visit is done", () => {
    const not = recorded({ outcome: "not-done", reason: "nest", date: isoDate("2027-03-01"), crownBaseM: 4 });
    const { tree, open, doneOn } = treeAfterWork(base, [not]);
    expect(tree).toEqual({ ...base, worked: { outcome: "not-done", on: "2027-03-01" } });
    expect(open).toEqual([not]);
    expect(doneOn).toBeNull();
    expect(treeAfterWork(base, [recorded(), not]).open).toEqual([]);
  });

  test("of a tree that is gone is the end, unless somebody worked on it later", () => {
    const gone = recorded({ outcome: "not-done", reason: "tree-gone", date: isoDate("2027-03-01") });
    expect(treeAfterWork(base, [gone]).gone).toBe(gone);
    expect(treeAfterWork(base, [gone, recorded()]).gone).toBeNull();
  });
});

test("the order in which reports were taken does not matter", () => {
  const visits = [
    recorded({ date: isoDate("2027-03-01"), outcome: "not-done", reason: "nest" }),
    recorded({ crownBaseM: 3 }),
    recorded({ visitId: `${base.id}/v2`, date: isoDate("2027-09-01"), doseShare: 0.05 }),
  ];
  const forward = treeAfterWork(base, visits);
  expect(treeAfterWork(base, [...visits].reverse())).toEqual(forward);
  expect(forward.lastDone).toBe(2);
  // 1 - 0.9 * 0.95 = 0.145.
  expect(forward.tree.lastDoseShare).toBeCloseTo(0.145, 12);
});
