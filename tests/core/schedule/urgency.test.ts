import { describe, expect, it } from "vitest";
import type { ConflictRecord } from "../../../src/core/model/conflict.ts";
import { hazardDeadline } from "../../../src/core/schedule/hazard-deadline.ts";
import type { SeasonWindows } from "../../../src/core/schedule/season-windows.ts";
import {
  endOfNextWindow,
  mostUrgent,
  treeUrgency,
  type UrgencyCase,
  urgencyByDate,
  visitUrgency,
} from "../../../src/core/schedule/urgency.ts";
import { addDays, dayNumber, isoDate } from "../../../src/core/units/calendar.ts";
import { AS_OF, conflict, planOptions, standard } from "../prescription/scene.ts";

const day = (text: string) => dayNumber(isoDate(text));
/** Open in August 2026 and from 1 to 20 January 2028. */
const seasons: SeasonWindows = {
  windows: [
    { startDay: day("2026-08-01"), endDay: day("2026-08-31") },
    { startDay: day("2028-01-01"), endDay: day("2028-01-20") },
  ],
  isAnyTime: false,
  rules: [],
  setAside: [],
};
const never: SeasonWindows = { ...seasons, windows: [] };
const LATER = isoDate("2027-05-01");
const open = (id: string, reachedOn: string): ConflictRecord =>
  conflict("walkway", 2, { conflictId: id, reachedOn: isoDate(reachedOn) });
const given = (over: Partial<UrgencyCase> = {}): UrgencyCase => ({
  all: [],
  seasons,
  isChecked: true,
  standard,
  options: planOptions(),
  draft: { refer: null },
  ...over,
});
const stage = (timing: "any-time" | "window", ...conflictIds: string[]) => ({ conflictIds, timing });

describe("the urgency of a visit due after the next window", () => {
  const all = [open("other", "2026-06-01"), open("own", "2026-07-01"), open("far", "2027-01-01")];

  it("is the next window's where the next visit cures what is reached on the day of the plan", () => {
    expect(visitUrgency(given({ all }), stage("window", "own", "far"), LATER, true)).toBe("next-window");
    expect(visitUrgency(given({ all }), stage("window", "own"), LATER, false)).toBe("this-cycle");
  });

  it("is by date where the visit cures only what is still to come, or another visit what is reached", () => {
    expect(visitUrgency(given({ all }), stage("window", "far"), LATER, true)).toBe("this-cycle");
    expect(visitUrgency(given({ all: [open("own", "2026-07-02")] }), stage("window", "own"), LATER, true)).toBe(
      "this-cycle",
    );
  });

  it("is the next window's for remedial work, whatever its place in the row", () => {
    expect(visitUrgency(given(), stage("any-time"), LATER, false)).toBe("next-window");
    expect(visitUrgency(given(), stage("window"), LATER, false)).toBe("this-cycle");
  });
});

describe("the next window", () => {
  const urgency = (due: string, over: Partial<UrgencyCase> = {}) =>
    visitUrgency(given(over), stage("window"), isoDate(due), false);

  it("takes in its last day and no more", () => {
    expect(urgency("2026-08-31")).toBe("next-window");
    expect(urgency("2026-09-01")).toBe("this-cycle");
  });

  it("is the one its caller has found, where there is one", () => {
    expect(urgency("2026-09-01", { nextEnd: isoDate("2026-09-01") })).toBe("next-window");
    expect(urgency("2026-08-31", { nextEnd: isoDate("2026-08-30") })).toBe("this-cycle");
    expect(urgency("2026-08-31", { nextEnd: null })).toBe("this-cycle");
  });

  it("hurries nothing where the rules leave none", () => {
    expect(endOfNextWindow(never, AS_OF)).toBeNull();
    expect(urgency("2026-08-31", { seasons: never })).toBe("this-cycle");
  });

  it("has two weeks left at least", () => {
    // 18 to 31 August are 14 days, 19 to 31 are 13.
    expect(endOfNextWindow(seasons, isoDate("2026-08-18"))).toBe("2026-08-31");
    expect(endOfNextWindow(seasons, isoDate("2026-08-19"))).toBe("2028-01-20");
  });
});

describe("the urgency of a tree", () => {
  const visit = (urgency: "next-window" | "this-cycle" | "watch", ...conflictIds: string[]) =>
    ({ urgency, tasks: [{ conflictIds }] }) as unknown as Parameters<typeof treeUrgency>[1][number];
  const refer = (code: string) => ({ refer: { code } }) as unknown as UrgencyCase["draft"];

  it("is the next window's where the tree itself is in doubt, though nothing near is", () => {
    for (const code of ["dead", "assess-decay", "strike-with-defect"]) {
      expect(treeUrgency(given({ draft: refer(code), all: [open("a", "2030-01-01")] }), [])).toBe("next-window");
    }
    expect(treeUrgency(given({ draft: refer("over-ceiling") }), [])).toBe("next-window");
    expect(treeUrgency(given({ draft: refer("over-ceiling"), all: [open("a", "2030-01-01")] }), [])).toBe("this-cycle");
  });

  it("counts what is left open beside the visits only where the tree is referred", () => {
    const all = [open("a", "2026-07-01")];
    expect(treeUrgency(given({ all }), [visit("this-cycle")])).toBe("this-cycle");
    expect(treeUrgency(given({ all, draft: refer("over-ceiling") }), [visit("this-cycle")])).toBe("next-window");
    // What a visit works on is no longer open.
    expect(treeUrgency(given({ all, draft: refer("over-ceiling") }), [visit("this-cycle", "a")])).toBe("this-cycle");
  });

  it("counts a minimum as reached on its own day, and not a day before", () => {
    expect(treeUrgency(given({ all: [open("a", "2026-07-01")] }), [])).toBe("next-window");
    expect(treeUrgency(given({ all: [open("a", "2026-07-02")] }), [])).toBe("this-cycle");
  });

  it("is clear without visits and conflicts only where all was checked", () => {
    expect(treeUrgency(given(), [])).toBe("clear");
    expect(treeUrgency(given({ isChecked: false }), [])).toBe("watch");
  });

  it("is that of its most urgent visit, the first named of all", () => {
    expect(treeUrgency(given(), [visit("watch"), visit("next-window"), visit("this-cycle")])).toBe("next-window");
    expect(mostUrgent(["this-cycle", "now", "watch"])).toBe("now");
    expect(mostUrgent(["clear"])).toBe("clear");
    expect(mostUrgent([])).toBe("clear");
  });
});

it("a cycle ends on its last day, whole years counted with their leap days", () => {
  const { cycleYears } = standard.pruning;
  const last = addDays(AS_OF, Math.round(cycleYears * 365.25));
  expect(urgencyByDate(last, standard, planOptions())).toBe("this-cycle");
  expect(urgencyByDate(addDays(last, 1), standard, planOptions())).toBe("watch");
});

describe("the deadline of hazards", () => {
  const seen = (firstSeen: string, isHazard = true) => ({
    hazard: isHazard ? conflict("roadway", 3.5).hazard : null,
    firstSeen: isoDate(firstSeen),
  });

  it("is that of the hazard whose days end first, whatever their order", () => {
    // A truck's clearance has 30 days.
    expect(hazardDeadline([seen("2026-07-01"), seen("2026-06-01")], standard)).toBe("2026-07-01");
    expect(hazardDeadline([seen("2026-06-01"), seen("2026-07-01")], standard)).toBe("2026-07-01");
  });

  it("is none without a hazard", () => {
    expect(hazardDeadline([], standard)).toBeNull();
    expect(hazardDeadline([seen("2026-06-01", false)], standard)).toBeNull();
  });
});
