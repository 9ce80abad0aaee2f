// Source: Journal of the Korean Institute of Landscape Architecture 50(4), Table 5, street-tree pruning labor by stem diameter class, read in
// an English copy: minutes of light pruning a tree, with 12.2 minutes of preparation and 1.8 of travel, and the published trees an hour.
// Values typed from the table. The copy does not state the crew's size; the figures are taken as crew-minutes.
import { expect, test } from "vitest";
import { visitHours } from "../../src/core/prescription/crew.ts";
import { usCommon } from "../../src/core/standard/parse-standard.ts";
import { tree } from "../core/prescription/scene.ts";

test.each([
  [0.105, 11.3, 2.37],
  [0.16, 16.7, 1.95],
  [0.26, 21.4, 1.69],
  [0.36, 29.4, 1.38],
  [0.46, 38.9, 1.13],
  [0.6, 57.4, 0.84],
])("a stem of %d m takes %d minutes, %d trees an hour", (dbhM, minutes, treesPerHour) => {
  const hours = visitHours(tree({ dbhM }), usCommon());
  // Hours are kept to a thousandth.
  expect(hours).toBeCloseTo((minutes + 12.2 + 1.8) / 60, 3);
  // The table rounds to a hundredth of a tree.
  expect(Math.abs(1 / hours - treesPerHour)).toBeLessThan(0.01);
});
