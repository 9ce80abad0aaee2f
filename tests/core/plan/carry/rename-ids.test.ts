import { expect, it } from "vitest";
import type { RecordedCheck } from "../../../../src/core/plan/acceptance/recorded-check.ts";
import { renamedRecord } from "../../../../src/core/plan/carry/rename-ids.ts";
import { EMPTY_RECORD } from "../../../../src/core/plan/record/work-record.ts";

const check = (treeId: string): RecordedCheck =>
  ({ treeId, visitId: `${treeId}/v1`, result: "rework", replacedIn: null }) as unknown as RecordedCheck;
const name = (from: string, to: string) => ({ from, to, untilRevision: 3 });

it("lets checks of finished work follow their trees, also where two trees change ids with each other", () => {
  const record = { ...EMPTY_RECORD, checks: [check("A"), check("B"), check("C")] };
  const { checks } = renamedRecord(record, [name("A", "B"), name("B", "A")]);
  expect(checks!.map(({ treeId, visitId }) => [treeId, visitId])).toEqual([
    ["B", "B/v1"],
    ["A", "A/v1"],
    ["C", "C/v1"],
  ]);
});

it("gives a record without checks none", () => {
  expect(renamedRecord(EMPTY_RECORD, [name("A", "B")])).not.toHaveProperty("checks");
});
