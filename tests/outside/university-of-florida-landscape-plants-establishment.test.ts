// Source: University of Florida, Landscape Plants, pruning and establishment pages (root establishment of irrigated trees by inch of trunk
// diameter): hardiness zones 9 to 11: 3 months an inch, 7 and 8: 6 months, 2 to 6: 12 months or more. Read on the publisher's pages;
// the cases are these rates times the caliper, e.g. 3.5 in in zone 7: 3.5 * 6 = 21 months.
import { expect, test } from "vitest";
import { establishmentMonths } from "../../src/core/prescription/establishment.ts";
import { usCommon } from "../../src/core/standard/parse-standard.ts";

test.each([
  [2, 5, 24],
  [2, 8, 12],
  [2, 10, 6],
  [3.5, 7, 21],
  [1, 2, 12],
  [1, 6, 12],
  [1, 9, 3],
  [1, 11, 3],
])("a %d in tree in zone %i takes %i months", (caliperIn, zone, months) => {
  expect(establishmentMonths(caliperIn, zone, usCommon())).toBeCloseTo(months, 9);
});
