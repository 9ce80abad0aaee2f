/**
 * Writes `src/core/inventory/allometry/city-spread.json`: how much trees of a city that was never measured differ from what the equations of
 * other cities say, counted from the Urban Tree Database. Run after `make-allometry.ts`, from the repository's root:
 * `node --import tsx docs/data-sources/make-city-spread.ts`, then `npx biome check --write` on the result.
 *
 * For each level and size two figures are sought on a grid: the share that lets the 90 % interval hold 94.5 % of the stems of 10 cm and more of
 * all left-out cities together, and the addition for thin stems that lets it hold 90 % of the stems under 10 cm. More than 90 % on the average,
 * since a run is for one city: at 90 % half of the cities would be served worse; at 94.5 % most of them are served with 90 % or more, as is
 * printed. Our policy.
 */
import { writeFileSync } from "node:fs";
import { type CitySpread, elsewhere } from "../../src/core/inventory/allometry/elsewhere.ts";
import { LEVELS, type LeftOutTree, leftOutTrees } from "./left-out-cities.ts";

const TARGET = "src/core/inventory/allometry/city-spread.json";
const WANTED = { ofAll: 0.945, ofThin: 0.9, ofOneCity: 0.9 };
const THIN_CM = 10;
/** Fewer trees say nothing of a city. */
const LEAST_TREES = 50;

const heldShare = (trees: readonly LeftOutTree[], spread: CitySpread): number =>
  trees.filter(({ prediction, dbhCm, measuredM }) => {
    const { lowM, highM } = elsewhere(prediction, spread, dbhCm);
    return measuredM >= lowM && measuredM <= highM;
  }).length / trees.length;

/** The least value on a grid that is enough. */
function least(step: number, isEnough: (value: number) => boolean): number {
  for (let count = 0; count <= 400; count += 1) if (isEnough(count * step)) return Number((count * step).toFixed(4));
  throw new RangeError("No spread on the grid is wide enough");
}

function spreadOf(trees: readonly LeftOutTree[]): CitySpread {
  const thick = trees.filter(({ dbhCm }) => dbhCm >= THIN_CM);
  const thin = trees.filter(({ dbhCm }) => dbhCm < THIN_CM);
  const share = least(0.01, (value) => heldShare(thick, { share: value, thinStemCm: 0 }) >= WANTED.ofAll);
  const thinStemCm = least(0.05, (value) => heldShare(thin, { share, thinStemCm: value }) >= WANTED.ofThin);
  return { share, thinStemCm };
}

/** Of how many cities with enough trees 90 % or more are held, in words. */
function citiesServed(trees: readonly LeftOutTree[], spread: CitySpread): string {
  const cities = [...new Set(trees.map(({ city }) => city))]
    .map((city) => trees.filter((tree) => tree.city === city))
    .filter((list) => list.length >= LEAST_TREES);
  const served = cities.filter((list) => heldShare(list, spread) >= WANTED.ofOneCity);
  return `90 % or more in ${served.length} of ${cities.length} cities`;
}

const all = leftOutTrees();
const spreads = LEVELS.map((level) => {
  const list = [0, 1, 2].map((component) => {
    const trees = all.filter((tree) => tree.level === level && tree.component === component);
    const spread = spreadOf(trees);
    const held = (heldShare(trees, spread) * 100).toFixed(1);
    console.log(
      level,
      component,
      `${trees.length} trees`,
      JSON.stringify(spread),
      `holds ${held} %`,
      citiesServed(trees, spread),
    );
    return spread;
  });
  return [level, list];
});
const source =
  "Urban Tree Database (doi 10.2737/RDS-2016-0005), table TS3, one city left out at a time; made by docs/data-sources/make-city-spread.ts";
const components = ["tree ht", "crown ht", "crown dia"];
writeFileSync(TARGET, `${JSON.stringify({ source, components, spreads: Object.fromEntries(spreads) }, null, 2)}\n`);
