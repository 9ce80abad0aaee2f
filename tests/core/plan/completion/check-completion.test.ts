import { describe, expect, test } from "vitest";
import { checkCompletion } from "../../../../src/core/plan/completion/check-completion.ts";
import type { Completion } from "../../../../src/core/plan/completion/completion.ts";
import { smallPlan, smallZone } from "../../packet/small-plan.ts";
import { reported, sampleCompletion } from "./sample-completion.ts";

const found = (change: Partial<Completion>) =>
  checkCompletion({ ...sampleCompletion, ...change }, smallPlan).map(({ code, severity }) => `${severity} ${code}`);

describe("checkCompletion", () => {
  test("finds nothing in a report that fits its plan", () => {
    expect(found({})).toEqual([]);
  });

  test("refuses another plan before anything else", () => {
    expect(found({ planId: "elsewhere", zoneId: "nowhere" })).toEqual(["error completion-other-plan"]);
  });

  test("refuses a revision still to come, and warns of an older one", () => {
    expect(found({ revision: smallPlan.revision + 1 })).toEqual(["error completion-newer-revision"]);
    expect(found({ revision: smallPlan.revision - 1 })).toEqual(["warning completion-older-revision"]);
  });

  test("refuses an unknown zone, which an older revision may well have had", () => {
    expect(found({ zoneId: "z-9" })).toEqual(["error completion-unknown-zone"]);
    expect(found({ zoneId: "z-9", revision: smallPlan.revision - 1 })).toEqual([
      "warning completion-older-revision",
      "warning completion-unknown-zone",
    ]);
  });

  test("refuses a visit that is not there, and one that names another tree's", () => {
    expect(found({ visits: [reported(0, { visitId: "T-1/v9" })] })).toEqual(["error completion-unknown-visit"]);
    expect(found({ visits: [reported(0, { treeId: smallZone.treeIds[1]! })] })).toEqual([
      "error completion-unknown-visit",
    ]);
  });

  test("refuses a visit of another zone", () => {
    const zones = [{ ...smallZone, visitIds: smallZone.visitIds.slice(1), treeIds: smallZone.treeIds.slice(1) }];
    const findings = checkCompletion(sampleCompletion, { ...smallPlan, zones });
    expect(findings.map(({ code }) => code)).toEqual(["completion-other-zone"]);
  });

  test("refuses a height above the tree, as when feet are read as meters", () => {
    const tree = smallPlan.trees.find(({ id }) => id === smallZone.treeIds[0])!;
    expect(found({ visits: [reported(0, { crownBaseM: tree.height.highM })] })).toEqual([]);
    expect(found({ visits: [reported(0, { crownBaseM: tree.height.highM + 0.1 })] })).toEqual([
      "error completion-above-top",
    ]);
  });

  test("asks for a look where a tenth of the crown more or less was taken than planned", () => {
    const planned = smallPlan.prescriptions
      .flatMap(({ visits }) => visits)
      .find(({ visitId }) => visitId === smallZone.visitIds[0])!.doseShare;
    expect(found({ visits: [reported(0, { doseShare: planned + 0.09 })] })).toEqual([]);
    expect(found({ visits: [reported(0, { doseShare: planned + 0.11 })] })).toEqual([
      "warning completion-dose-differs",
    ]);
  });
});
