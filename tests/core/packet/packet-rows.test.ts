import { expect, test } from "vitest";
import { PACKET_COLUMNS, type PacketCell, packetRows } from "../../../src/core/packet/packet-rows.ts";
import { smallPlan, smallZone } from "./small-plan.ts";

const at = smallPlan.prescriptions.findIndex(
  ({ liftToM, visits }) => liftToM !== null && smallZone.visitIds.includes(visits[0]?.visitId ?? ""),
);
const prescription = smallPlan.prescriptions[at]!;
const [visit] = prescription.visits as readonly [(typeof prescription.visits)[number]];

/** The row of the first of two visits, which lifts to a part of the height and shortens elsewhere. */
function rowOf(liftedM: number): Record<string, PacketCell> {
  const [task] = visit.tasks as readonly [(typeof visit.tasks)[number]];
  const tasks = [
    { ...task, remedy: "lift" as const, belowM: liftedM, where: "all round, below 2.1 m" },
    { ...task, remedy: "shorten" as const, belowM: 5, where: "on the south side, below 5 m" },
  ];
  const part = { ...visit, tasks, openAfter: ["the lane: not yet clear", "the wall: not yet clear"] };
  const prescriptions = smallPlan.prescriptions.with(at, { ...prescription, visits: [part] });
  const row = packetRows({ ...smallPlan, prescriptions }, smallZone).find(({ cells }) => cells[1] === visit.visitId)!;
  return Object.fromEntries(PACKET_COLUMNS.map((column, place) => [column, row.cells[place]!]));
}

test("a row tells how high its own visit lifts, not how high all of them do", () => {
  expect(prescription.liftToM).not.toBe(2.1);
  expect(rowOf(2.1).lift_to_m).toBe(2.1);
});

test("places and what stays open are told apart in a row", () => {
  expect(rowOf(2.1)).toMatchObject({
    where: "all round, below 2.1 m; on the south side, below 5 m",
    open_after: "the lane: not yet clear; the wall: not yet clear",
  });
});
