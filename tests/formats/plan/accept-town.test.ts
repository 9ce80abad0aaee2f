import { beforeAll, describe, expect, it } from "vitest";
import { previewChecks } from "../../../src/core/plan/acceptance/preview-checks.ts";
import { zoneAcceptance } from "../../../src/core/plan/acceptance/zone-acceptance.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { checkSheet } from "../../../src/formats/acceptance/check-sheet.ts";
import { isCheckTable, readChecks } from "../../../src/formats/acceptance/read-checks.ts";
import { acceptPlan } from "../../../src/formats/plan/accept-plan.ts";
import { type OpenedRecord, openRecord } from "../../../src/formats/plan/open-record.ts";
import { memorySource } from "../../../src/formats/plan/plan-source.ts";
import { type Files, recorded, reportOf, townPlan, zonesOf } from "./recorded-town.ts";

const RULES = usCommon().acceptance;
let files: Files;
let zoneId: string;
const opened = (of: Files): Promise<OpenedRecord> => openRecord(memorySource(of));
const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

/** Takes a table of checks as the next revision. */
async function checked(of: Files, table: string): Promise<Files> {
  const plan = await opened(of);
  const read = readChecks("checks.csv", bytes(table), "ab");
  if ("faults" in read) throw new Error(read.faults.join("\n"));
  const output = await acceptPlan(plan, previewChecks(read.checks, plan.record), plan.plan.revision + 1);
  return output?.files ?? of;
}

beforeAll(async () => {
  const planned = await townPlan(40);
  const zone = zonesOf(planned)[0]!;
  zoneId = zone.zone;
  files = (await recorded(planned, [doneReport(planned, zone.zone)])).files;
}, 120_000);

/** A crew reports all of a zone as done; each time on a copy of its own. */
const doneReport = (of: Files, zone: string, on = "2026-11-10") =>
  reportOf(of, zonesOf(of).find((one) => one.zone === zone)!, () => ({ date: isoDate(on) }), {
    reportId: `r-${zone}-${on}`,
  });

describe("acceptance on the sample town", () => {
  it("prints the trees to check, and reads the filled table back", async () => {
    const { plan, record } = await opened(files);
    expect(plan.zones.find((one) => one.zoneId === zoneId)?.state).toBe("done");
    const sheet = checkSheet(plan, record, [zoneId], RULES);
    expect(isCheckTable(bytes(sheet))).toBe(true);
    const { trees } = zoneAcceptance(plan.planId, zoneId, record, RULES);
    expect(sheet.trim().split("\r\n").length).toBe(trees.length + 1);
  });

  it("reopens a tree that did not pass with a new visit in its zone, ends with the rework, and is accepted when all passed", async () => {
    const before = await opened(files);
    const { trees } = zoneAcceptance(before.plan.planId, zoneId, before.record, RULES);
    const [failed, ...others] = trees.map(({ treeId }) => treeId);
    const table = [
      "tree;check;reason;checked_on;checked_by",
      `${failed};rework;Stubs left;2026-12-20;K. Birch`,
      ...others.map((id) => `${id};passed;;2026-12-20;K. Birch`),
    ].join("\n");
    const failedFiles = await checked(files, table);
    const after = await opened(failedFiles);
    const prescription = after.plan.prescriptions.find(({ treeId }) => treeId === failed)!;
    const [visit] = prescription.visits;
    expect(visit).toMatchObject({ visitId: `${failed}/v1r`, number: 1, due: "2027-01-19", urgency: "next-window" });
    expect(visit!.tasks[0]!.cause).toContain("Stubs left");
    const zone = after.plan.zones.find((one) => one.zoneId === zoneId)!;
    expect([zone.state, zone.visitIds]).toEqual(["under-way", [`${failed}/v1r`]]);
    // Nothing else of the plan changes: every other prescription is the same text.
    const textsOf = (of: OpenedRecord): string[] =>
      of.plan.prescriptions.filter(({ treeId }) => treeId !== failed).map((one) => JSON.stringify(one));
    expect(textsOf(after)).toEqual(textsOf(before));
    // The same table again changes nothing.
    expect(await checked(failedFiles, table)).toBe(failedFiles);

    const reworked = (await recorded(failedFiles, [doneReport(failedFiles, zoneId, "2027-01-05")])).files;
    const done = await opened(reworked);
    expect(done.plan.zones.find((one) => one.zoneId === zoneId)?.state).toBe("done");
    expect(done.record.checks?.length).toBe(trees.length);
    const rest = zoneAcceptance(done.plan.planId, zoneId, done.record, RULES);
    expect(rest).toMatchObject({ rework: 0, isAccepted: false });
    const last = rest.trees
      .filter(({ check }) => check === null)
      .map(({ treeId }) => `${treeId},passed,2027-06-01,K. Birch`);
    const accepted = await opened(await checked(reworked, ["tree,check,checked_on,checked_by", ...last].join("\n")));
    expect(zoneAcceptance(accepted.plan.planId, zoneId, accepted.record, RULES).isAccepted).toBe(true);
  });

  it("refuses a table with a row that cannot be read, with its line", () => {
    const table =
      "tree,check,reason,checked_on,checked_by\nA,rework,,2027-01-02,K\nB,maybe,,2027-01-02,K\nC,passed,,03/04/2027,\n";
    const read = readChecks("c.csv", bytes(table), "ab");
    expect("faults" in read ? read.faults : []).toEqual([
      "Line 2: reason is empty: say what is to be made good.",
      'Line 3: check is "maybe"; expected passed or rework.',
      "Line 4: checked_on is no whole date such as 2027-03-12.",
      "Line 4: checked_by is empty: say who looked.",
    ]);
  });
});
