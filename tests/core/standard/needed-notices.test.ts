import { describe, expect, it } from "vitest";
import type { ConflictRecord } from "../../../src/core/model/conflict.ts";
import type { Tree } from "../../../src/core/model/trees.ts";
import type { Closure } from "../../../src/core/model/zone.ts";
import {
  isOwnOwner,
  type NoticeStop,
  noticeBy,
  visitNotices,
  zoneNotices,
} from "../../../src/core/standard/needed-notices.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { planOfWork, type Work } from "../zone/plan-of-work.ts";

const RULES = usCommon().notices;
const stopWith = (
  tree: Partial<Tree>,
  visit: Work["visit"] = {},
  conflicts: readonly Pick<ConflictRecord, "conflictId" | "kind">[] = [],
): NoticeStop => {
  const plan = planOfWork([{ id: "A", at: [0, 0], tree, visit }]);
  return { tree: plan.trees[0]!, visit: plan.prescriptions[0]!.visits[0]!, conflicts };
};
const closure = (kind: Closure["kind"]): Closure => ({ kind }) as Closure;

describe("whom to tell before work", () => {
  it("asks an owner who is not the city, and nobody where no owner is recorded", () => {
    expect(visitNotices(stopWith({ owner: "Elm Hill Homes" }), RULES)).toEqual(["owner-permission"]);
    expect(visitNotices(stopWith({ owner: "City of Elm Hill" }), RULES)).toEqual([]);
    expect(visitNotices(stopWith({ owner: null }), RULES)).toEqual([]);
  });

  it("reads whole words without case", () => {
    expect(["CITY", "Parks & Recreation", "Dept. of Public Works"].map((owner) => isOwnOwner(owner, RULES))).toEqual([
      true,
      true,
      true,
    ]);
    expect(["Parkside Homes", "Citywide Storage", "private"].map((owner) => isOwnOwner(owner, RULES))).toEqual([
      false,
      false,
      false,
    ]);
  });

  it("asks for a permit of a protected tree, and for an outage where the visit works at a line", () => {
    expect(visitNotices(stopWith({ isProtected: true }), RULES)).toEqual(["protected-permit"]);
    const conflicts = [{ conflictId: "c", kind: "conductor" as const }];
    const tasks = [{ conflictIds: ["c"] }] as unknown as NonNullable<NonNullable<Work["visit"]>["tasks"]>;
    expect(visitNotices(stopWith({}, { tasks }, conflicts), RULES)).toEqual(["outage-request"]);
    expect(visitNotices(stopWith({}, {}, conflicts), RULES)).toEqual([]);
    expect(visitNotices(stopWith({}, { crew: "utility" }), RULES)).toEqual(["outage-request"]);
  });

  it("adds for a zone what its closure needs, with the standard's lead times", () => {
    const stops = [stopWith({ owner: "Elm Hill Homes" })];
    expect(zoneNotices(closure("none"), stops, RULES)).toEqual([
      { kind: "owner-permission", treeIds: ["A"], leadDays: 30 },
    ]);
    expect(zoneNotices(closure("walk"), [], RULES).map(({ kind }) => kind)).toEqual(["closure-request"]);
    expect(zoneNotices(closure("parking-lane"), [], RULES)).toEqual([
      { kind: "parking-notice", treeIds: [], leadDays: 3 },
      { kind: "closure-request", treeIds: [], leadDays: 14 },
    ]);
  });

  it("counts back in calendar days", () => {
    expect(noticeBy(isoDate("2027-03-02"), 3)).toBe("2027-02-27");
  });
});
