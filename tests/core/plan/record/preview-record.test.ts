import { describe, expect, test } from "vitest";
import { visitsById } from "../../../../src/core/plan/record/visits-by-id.ts";
import { isoDate } from "../../../../src/core/units/calendar.ts";
import { smallPlan, smallZone } from "../../packet/small-plan.ts";
import { reported, sampleCompletion } from "../completion/sample-completion.ts";
import { given, otherCrew, preview, recordOf, statuses } from "./small-record.ts";

const [first, second] = smallZone.visitIds as readonly [string, string];
/** A plan one revision on, and what the revision before asked for. */
const next = { ...smallPlan, revision: smallPlan.revision + 1 };
const before = new Map([[smallPlan.revision, visitsById(smallPlan.prescriptions)]]);

describe("a report that fits", () => {
  test("is taken whole, with what it will do", () => {
    const shown = preview([given()]);
    expect(statuses(shown)).toEqual([`${first} take`, `${second} take`]);
    expect(shown.visits.map(({ reason }) => reason)).toEqual([
      "The visit is done.",
      "Partly done: the visit stays open with what is left.",
    ]);
    expect(shown.totals).toEqual({ take: 2, "already-taken": 0, conflict: 0, "needs-decision": 0, refused: 0 });
    expect(shown.changesAnything).toBe(true);
  });

  test("is there already the second time, also with other files around it", () => {
    const shown = preview([given()], { record: recordOf(given()) });
    expect(statuses(shown)).toEqual([`${first} already-taken`, `${second} already-taken`]);
    expect(shown.changesAnything).toBe(false);
  });

  test("takes trees and hazards beside the list once", () => {
    const { addedTrees, hazards } = sampleCompletion;
    const file = given({ addedTrees, hazards });
    expect(preview([file]).additions.map(({ status }) => status)).toEqual(["take", "take"]);
    expect(preview([file], { record: recordOf(file) }).additions.map(({ status }) => status)).toEqual([
      "already-taken",
      "already-taken",
    ]);
  });
});

describe("a date that cannot well be", () => {
  const codesOf = (date: string): string[] =>
    preview([given({ visits: [reported(0, { date: isoDate(date) })] })]).findings.map(({ code }) => code);

  test.each([
    ["of the day after the file was written, as it is in the east", "2027-03-13", []],
    ["of a year to come", "2072-03-12", ["completion-date-doubtful"]],
    ["of the plan's own day", smallPlan.options.asOf, []],
    ["of a day before the plan", "2017-03-12", ["completion-date-doubtful"]],
  ])("is told: %s", (_, date, codes) => {
    expect(codesOf(date)).toEqual(codes);
  });
});

describe("a later file of the same copy", () => {
  const later = given({
    exportedAt: "2027-03-13T16:00:00Z",
    visits: [reported(0, { crownBaseM: 4.7, headroomM: 4.6 }), sampleCompletion.visits[1]!],
  });

  test("takes the earlier one's place where it says something else", () => {
    const shown = preview([later], { record: recordOf(given()) });
    expect(statuses(shown)).toEqual([`${first} take`, `${second} already-taken`]);
    expect(shown.visits[0]!.against?.crownBaseM).toBe(4.6);
  });

  test("stands when the earlier one comes after it", () => {
    const shown = preview([given()], { record: recordOf(later) });
    expect(statuses(shown)).toEqual([`${first} already-taken`, `${second} already-taken`]);
    expect(shown.changesAnything).toBe(false);
  });

  test("counts alone when both are given at once, in any order", () => {
    for (const files of [
      [given(), later],
      [later, given()],
    ]) {
      const shown = preview(files);
      expect(shown.visits.map(({ entry }) => entry?.crownBaseM)).toEqual([4.7, null]);
      expect(shown.files.map(({ status }) => status)).toEqual(["already-taken", "take"]);
    }
  });

  test("takes a visit back only when somebody says so", () => {
    const without = given({
      exportedAt: "2027-03-13T16:00:00Z",
      visits: [reported(0, { crownBaseM: 4.6, headroomM: 4.6 })],
    });
    const record = recordOf(given());
    expect(statuses(preview([without], { record }))).toEqual([`${first} already-taken`, `${second} needs-decision`]);
    const decided = preview([without], { record, decisions: new Map([[second, null]]) });
    expect(decided.visits[1]).toMatchObject({ status: "take", entry: null, becomes: null });
  });
});

describe("two crews' reports about one visit", () => {
  test("that say the same are one", () => {
    expect(statuses(preview([otherCrew()], { record: recordOf(given()) }))).toEqual([`${first} already-taken`]);
    expect(statuses(preview([given(), otherCrew()]))).toEqual([
      `${first} take`,
      `${second} take`,
      `${first} already-taken`,
    ]);
  });

  test("that differ are a conflict, and neither is taken from two files at once", () => {
    const other = otherCrew({ crownBaseM: 3.9 });
    const recorded = preview([other], { record: recordOf(given()) });
    expect(statuses(recorded)).toEqual([`${first} conflict`]);
    expect(recorded.visits[0]).toMatchObject({ canDecide: true, against: { crownBaseM: 4.6 }, becomes: null });
    expect(recorded.changesAnything).toBe(false);
    for (const files of [
      [given(), other],
      [other, given()],
    ]) {
      expect(statuses(preview(files)).filter((one) => one.startsWith(first))).toEqual([
        `${first} conflict`,
        `${first} conflict`,
      ]);
    }
  });

  test("are taken by the one decided for; with two to choose from the report must be named", () => {
    const files = [given(), otherCrew({ crownBaseM: 3.9 })];
    const vague = preview(files, { decisions: new Map([[first, null]]) });
    expect(statuses(vague)).toEqual([`${first} conflict`, `${second} take`, `${first} conflict`]);
    expect(vague.visits[0]!.reason).toContain(`${first}=`);
    const named = preview(files, { decisions: new Map([[first, "other"]]) });
    expect(statuses(named)).toEqual([`${first} conflict`, `${second} take`, `${first} take`]);
    expect(named.visits[2]!.becomes?.decided).toContain("otherwise");
  });

  test("that contradict the one decided for are not taken with it", () => {
    const record = recordOf(given({ visits: [reported(0, { date: isoDate("2027-03-20") })] }));
    const early = otherCrew({ date: isoDate("2027-03-10"), crownBaseM: 3.9 });
    const left = otherCrew(
      { outcome: "not-done", reason: "weather", date: isoDate("2027-03-10"), crownBaseM: null, headroomM: null },
      { reportId: "third" },
    );
    const files = [early, { ...left, file: "third.json" }];
    expect(statuses(preview(files, { record }))).toEqual([`${first} conflict`, `${first} take`]);
    const decided = preview(files, { record, decisions: new Map([[first, "other"]]) });
    expect(statuses(decided)).toEqual([`${first} take`, `${first} conflict`]);
    expect(decided.visits[1]).toMatchObject({ becomes: null, canDecide: true, against: { outcome: "done" } });
  });

  test("may follow each other when the earlier day's left the visit open, in either order", () => {
    const open = otherCrew({ outcome: "not-done", reason: "weather", date: isoDate("2027-03-10"), crownBaseM: null });
    expect(statuses(preview([given()], { record: recordOf(open) }))).toEqual([`${first} take`, `${second} take`]);
    expect(statuses(preview([open], { record: recordOf(given()) }))).toEqual([`${first} take`]);
    const after = otherCrew({ outcome: "not-done", reason: "weather", date: isoDate("2027-03-20"), crownBaseM: null });
    expect(statuses(preview([after], { record: recordOf(given()) }))).toEqual([`${first} conflict`]);
  });
});

describe("a report from an older revision", () => {
  test("is taken where the plan still asks for the same work", () => {
    expect(statuses(preview([given()], { plan: next, earlier: before }))).toEqual([`${first} take`, `${second} take`]);
  });

  test("waits where the work was planned anew, or is no longer asked for", () => {
    const prescriptions = next.prescriptions.map((one) => ({
      ...one,
      visits: one.visits
        .filter(({ visitId }) => visitId !== second)
        .map((visit) => (visit.visitId === first ? { ...visit, doseShare: visit.doseShare / 2 } : visit)),
    }));
    const plan = { ...next, prescriptions };
    const shown = preview([given()], { plan, earlier: before });
    expect(statuses(shown)).toEqual([`${first} needs-decision`, `${second} needs-decision`]);
    const taken = preview([given()], { plan, earlier: before, decisions: new Map([[second, null]]) });
    expect(statuses(taken)).toEqual([`${first} needs-decision`, `${second} take`]);
  });

  test("does not mind other dates", () => {
    const prescriptions = next.prescriptions.map((one) => ({
      ...one,
      visits: one.visits.map((visit) => ({ ...visit, due: isoDate("2030-01-01"), overdue: true })),
    }));
    expect(statuses(preview([given()], { plan: { ...next, prescriptions }, earlier: before }))).toEqual([
      `${first} take`,
      `${second} take`,
    ]);
  });

  test("waits where that revision is not at hand", () => {
    const shown = preview([given()], { plan: next });
    expect(statuses(shown)).toEqual([`${first} needs-decision`, `${second} needs-decision`]);
    expect(shown.visits[0]!.reason).toContain("not at hand");
  });

  test("of a visit that was done meanwhile is weighed against the record", () => {
    const record = recordOf(given());
    const prescriptions = next.prescriptions.map((one) => ({
      ...one,
      visits: one.visits.filter(({ visitId }) => visitId !== first),
    }));
    const plan = { ...next, prescriptions, zones: [] };
    expect(statuses(preview([otherCrew()], { plan, record, earlier: before }))).toEqual([`${first} already-taken`]);
    expect(statuses(preview([otherCrew({ headroomM: 4 })], { plan, record, earlier: before }))).toEqual([
      `${first} conflict`,
    ]);
  });
});

describe("a file that does not fit", () => {
  test.each([
    ["another plan", given({ planId: "elsewhere" }), /belongs to plan "elsewhere"/],
    ["a revision to come", given({ revision: smallPlan.revision + 1 }), /stands at/],
    ["an unknown zone", given({ zoneId: "z-9" }), /no zone "z-9"/],
    [
      "a visit that its revision does not have",
      given({ visits: [reported(0, { visitId: "T-1/v9" })] }),
      /no visit T-1\/v9/,
    ],
    ["a visit of another tree", given({ visits: [reported(0, { treeId: smallZone.treeIds[1]! })] }), /no visit/],
  ])("is refused whole: %s", (_, file, reason) => {
    const shown = preview([file]);
    expect(shown.files.map(({ status }) => status)).toEqual(["refused"]);
    expect(shown.files[0]!.reason).toMatch(reason);
    expect(shown.visits).toEqual([]);
    expect(shown.changesAnything).toBe(false);
  });

  test("keeps only the entry out whose height lies above the tree", () => {
    const shown = preview([given({ visits: [reported(0, { crownBaseM: 99 }), reported(1)] })]);
    expect(statuses(shown)).toEqual([`${first} refused`, `${second} take`]);
  });
});

test("files in any order give the same preview", () => {
  const files = [
    given(),
    otherCrew({ crownBaseM: 3.9 }),
    given(
      {
        reportId: "third",
        visits: [reported(1, { date: isoDate("2027-03-11"), outcome: "not-done", reason: "nest" })],
      },
      "third.json",
    ),
  ];
  expect(preview([...files].reverse())).toEqual(preview(files));
});
