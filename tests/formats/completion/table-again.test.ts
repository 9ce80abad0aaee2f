import { expect, test } from "vitest";
import { previewRecord } from "../../../src/core/plan/record/preview-record.ts";
import type { RecordPreview } from "../../../src/core/plan/record/record-preview.ts";
import { takeIntoRecord } from "../../../src/core/plan/record/take-record.ts";
import { EMPTY_RECORD } from "../../../src/core/plan/record/work-record.ts";
import { readCompletions } from "../../../src/formats/completion/read-completions.ts";
import { smallPlan, smallZone } from "../../core/packet/small-plan.ts";
import { statuses } from "../../core/plan/record/small-record.ts";

const [first, second] = smallZone.treeIds as readonly [string, string];
const [firstVisit] = smallZone.visitIds as readonly [string, string];

/** The plan one revision on, its first tree pruned: the zone has the tree's next visit in place of the one that is done. */
const nextVisit = `${first}/v2`;
const next = {
  ...smallPlan,
  revision: smallPlan.revision + 1,
  prescriptions: smallPlan.prescriptions.map((one) =>
    one.treeId === first ? { ...one, visits: one.visits.map((visit) => ({ ...visit, visitId: nextVisit })) } : one,
  ),
  zones: smallPlan.zones.map((zone) => ({
    ...zone,
    visitIds: zone.visitIds.map((id) => (id === firstVisit ? nextVisit : id)),
  })),
};

async function shown(text: string, plan = smallPlan, record = EMPTY_RECORD): Promise<RecordPreview> {
  const bytes = new TextEncoder().encode(text);
  const { given, refused } = await readCompletions([{ name: "monday.csv", bytes, modifiedAt: null }], plan, record);
  expect(refused).toEqual([]);
  return previewRecord({ plan, record, given, earlier: new Map(), decisions: new Map() });
}

async function recordOf(text: string) {
  return takeIntoRecord(smallPlan, EMPTY_RECORD, await shown(text), next.revision).record;
}

test("a table without visits that is handed in again says nothing of the visits that came after", async () => {
  const table = `tree,outcome,date\n${first},done,2027-03-12`;
  const again = await shown(table, next, await recordOf(table));
  expect(statuses(again)).toEqual([`${firstVisit} already-taken`]);
  expect(again.changesAnything).toBe(false);
});

test("a row added to a table is taken, and the rows before it are there already", async () => {
  const record = await recordOf(`tree,outcome,date\n${first},done,2027-03-12`);
  const grown = await shown(`tree,outcome,date\n${first},done,2027-03-12\n${second},done,2027-03-13`, next, record);
  expect(statuses(grown)).toEqual([`${firstVisit} already-taken`, `${smallZone.visitIds[1]} take`]);
});

test("work on a later day is the tree's next visit", async () => {
  const record = await recordOf(`tree,outcome,date\n${first},done,2027-03-12`);
  expect(statuses(await shown(`tree,outcome,date\n${first},done,2028-02-01`, next, record))).toEqual([
    `${nextVisit} take`,
  ]);
});

test("done work that a table tells otherwise is a conflict to decide, by tree and by visit", async () => {
  const record = await recordOf(`tree,outcome,date\n${first},done,2027-03-12`);
  for (const [column, value] of [
    ["tree", first],
    ["visit", firstVisit],
  ]) {
    const otherwise = await shown(`${column},outcome,reason,date\n${value},partly,weather,2027-03-12`, next, record);
    expect(statuses(otherwise)).toEqual([`${firstVisit} conflict`]);
    expect(otherwise.visits[0]!.canDecide).toBe(true);
  }
});

test("every row of a report over two zones counts", async () => {
  const half = (zoneId: string, rest: number) => ({
    ...smallZone,
    zoneId,
    visitIds: smallZone.visitIds.filter((_, place) => place % 2 === rest),
  });
  const parted = { ...smallPlan, zones: [half("z-one", 0), half("z-two", 1)] };
  const report = await shown(
    `tree,outcome,date,report\n${first},done,2027-03-12,monday\n${second},done,2027-03-12,monday`,
    parted,
  );
  expect([...statuses(report)].sort()).toEqual([`${firstVisit} take`, `${smallZone.visitIds[1]} take`].sort());
});

test("a visit in no zone is refused with its line and the reason", async () => {
  const bytes = new TextEncoder().encode(`tree,outcome,date\n${first},done,2027-03-12`);
  const bare = {
    ...smallPlan,
    zones: smallPlan.zones.map((zone) => ({ ...zone, visitIds: zone.visitIds.filter((id) => id !== firstVisit) })),
  };
  const { given, refused } = await readCompletions([{ name: "monday.csv", bytes }], bare);
  expect(given).toEqual([]);
  expect(refused[0]!.faults).toEqual([
    `Line 2: visit ${firstVisit} is in no work zone. Put it into one, then record it.`,
  ]);
});
