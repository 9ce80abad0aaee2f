import { expect, it } from "vitest";
import { LEVELS, leftOutTrees } from "../../docs/data-sources/left-out-cities.ts";
import { citySpreadOf, elsewhere } from "../../src/core/inventory/allometry/elsewhere.ts";
import { read, tableAfter } from "./markdown.ts";

const trees = leftOutTrees();

/** One cell of the table: the spread, the share of all trees held, and the cities of fifty trees and more where nine in ten are held. */
function cell(level: (typeof LEVELS)[number], component: number): string {
  const list = trees.filter((tree) => tree.level === level && tree.component === component);
  const spread = citySpreadOf(level, component);
  const isHeld = ({ prediction, dbhCm, measuredM }: (typeof list)[0]): boolean => {
    const { lowM, highM } = elsewhere(prediction, spread, dbhCm);
    return measuredM >= lowM && measuredM <= highM;
  };
  const shareHeld = (some: typeof list): number => some.filter(isHeld).length / some.length;
  const cities = [...new Set(list.map(({ city }) => city))]
    .map((city) => list.filter((tree) => tree.city === city))
    .filter((some) => some.length >= 50);
  const served = cities.filter((some) => shareHeld(some) >= 0.9).length;
  return `${spread.share.toFixed(2)}, ${(shareHeld(list) * 100).toFixed(1)} %, ${served} of ${cities.length}`;
}

it("docs/method.md tells how the intervals do in cities left out, as the database has it", () => {
  const table = tableAfter(read("docs/method.md"), "<!-- table: left-out cities -->");
  expect(table).toEqual(LEVELS.map((level) => [level, ...[0, 1, 2].map((component) => cell(level, component))]));
});
