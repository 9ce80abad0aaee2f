import { expect, test } from "vitest";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { plannedStops } from "../../../src/core/zone/stops.ts";
import { zoneId } from "../../../src/core/zone/zone-id.ts";
import { planOfWork, type Work } from "./plan-of-work.ts";

const idOf = (works: readonly Work[], order: readonly number[]): string => {
  const stops = plannedStops(planOfWork(works));
  return zoneId(order.map((at) => stops[at]!));
};
const [a, b, c]: [Work, Work, Work] = [
  { id: "a", at: [0, 0] },
  { id: "b", at: [10, 0] },
  { id: "c", at: [20, 0] },
];

test("the id is that of the tree first in the inventory, whatever the order of work and the others", () => {
  expect(idOf([a, b, c], [2, 0, 1])).toBe(idOf([a, b, c], [0, 1, 2]));
  expect(idOf([a, b], [0, 1])).toBe(idOf([a, c], [0, 1]));
  expect(idOf([a, b], [0, 1])).not.toBe(idOf([a, b], [1]));
});

test("another crew or another season is another zone", () => {
  const winter = idOf([a], [0]);
  expect(idOf([{ ...a, visit: { crew: "ground" } }], [0])).not.toBe(winter);
  expect(idOf([{ ...a, visit: { windowEnd: isoDate("2028-03-31") } }], [0])).not.toBe(winter);
});

test("ids are short and of letters and digits, even for hostile tree ids", () => {
  for (const id of ["__proto__", "=1+1", "../../x", "<img>", ""])
    expect(idOf([{ ...a, id }], [0])).toMatch(/^z-[a-z0-9]{11}$/);
});
