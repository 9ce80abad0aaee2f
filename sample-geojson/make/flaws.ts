import type { Building } from "./buildings.ts";
import { type Collection, collection, type Feature, type Properties } from "./geojson.ts";
import type { Point } from "./line.ts";

/** A mistake written into the row at a given place. */
type Flaw = (row: Properties, rows: readonly Feature[]) => Properties;

const FLAWS: ReadonlyMap<number, Flaw> = new Map<number, Flaw>([
  [57, (row) => ({ ...row, height: 6.4, crown_base: 8.1 })],
  [203, (row) => ({ ...row, dbh: 0 })],
  [318, (row) => ({ ...row, id: "T-0318" })],
  [444, (row) => ({ ...row, planted: "2024-02-30" })],
  [590, (row) => ({ ...row, dbh: 0, height: null })],
  [711, (row) => ({ ...row, last_pruned: "last spring" })],
  [902, (row) => ({ ...row, height: 214 })],
  [1050, (row) => ({ ...row, species: null, common_name: null })],
]);

/** Row whose tree was put down in the middle of a house. */
const TREE_IN_HOUSE = 1103;

/** The inventory with the handful of mistakes that every inventory has: see the README beside the files for the list. */
export function withFlaws(inventory: Collection, built: readonly Building[]): Collection {
  const house = built.filter((one) => one.kind === "house")[40]!;
  return collection(
    inventory.features.map((feature, at) => {
      const flaw = FLAWS.get(at);
      const properties = flaw === undefined ? feature.properties : flaw(feature.properties, inventory.features);
      return at === TREE_IN_HOUSE
        ? { geometry: { type: "Point", point: insideOf(house) }, properties }
        : { ...feature, properties };
    }),
  );
}

/** A point inside a house: its center, which even the notched ones contain. */
const insideOf = (house: Building): Point => house.center;
