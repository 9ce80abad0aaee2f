import type { Point } from "geojson";
import { type ColumnMap, type ColumnSource, FIELDS } from "../model/column-map.ts";
import type { SourceFeature } from "../model/feature.ts";
import type { Finding } from "../model/finding.ts";
import { NOT_USED } from "../model/not-used.ts";
import type { PlanOptions, SetAside } from "../model/plan.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { createAllometry } from "./allometry/allometry.ts";
import { REGIONS, regionLabel } from "./allometry/equation-label.ts";
import { type ChosenRegion, chooseRegion } from "./allometry/reference-region.ts";
import { completeSizes } from "./complete-sizes.ts";
import { dateOrders } from "./date-orders.ts";
import { fieldReader } from "./field-reader.ts";
import { findingLog } from "./finding-log.ts";
import { inventoryMedians } from "./inventory-medians.ts";
import { nearPlaces } from "./near-places.ts";
import { placeCrown } from "./place-crown.ts";
import { type ReadTree, readTree } from "./read-tree.ts";
import { speciesMatcher } from "./species/match-species.ts";
import { isByAllometry, sumUp } from "./sum-up.ts";
import { treeIds } from "./tree-ids.ts";
import { unitDoubts } from "./unit-doubts.ts";

export interface Inventory {
  readonly trees: Tree[];
  readonly setAside: SetAside[];
  readonly findings: Finding[];
}

/**
 * All trees of an inventory, every size of the crown present with its basis, in input order. Every feature ends as a tree or set aside
 * with its reason, which is not repeated among the findings; every doubt is a finding, and repeated estimates are summed up.
 *
 * Two passes: the first reads what was measured, the second fills the gaps, as medians need all trees. `standard` holds nothing that
 * decides a size; it is taken so that all stages are called alike.
 */
export function readTrees(
  features: readonly SourceFeature<Point>[],
  columns: ColumnMap,
  _standard: Standard,
  options: PlanOptions,
): Inventory {
  const log = findingLog(columns);
  const read = fieldReader(columns, options, log, dateOrders(features, columns));
  const context = { read, log, matchSpecies: speciesMatcher(), nextId: treeIds(read, log) };
  const missingColumns = columnsNotFound(features, columns);
  const setAside: SetAside[] = [];
  const readings: ReadTree[] = [];
  const places = nearPlaces();
  const medians = inventoryMedians();

  for (const feature of features) {
    const reading = readTree(feature, context);
    if ("setAside" in reading) {
      setAside.push({ layer: "trees", ordinal: feature.ordinal, finding: reading.setAside });
      continue;
    }
    places.note(feature, reading.fields, log);
    addMedians(medians, reading);
    readings.push(reading);
  }

  const chosen = chooseRegion(options.place);
  const allometry = createAllometry(chosen.region);
  const trees = readings.map((reading, row): Tree => {
    const { traits, allometry: allometryName } = reading.match;
    const { form } = reading.fields;
    const sizes = completeSizes(reading.measured, { traits, allometryName, form, allometry, medians });
    const tree = placeCrown({ row, ...reading.fields, ...sizes }, reading.crownPlace);
    sumUp(tree, reading, log);
    if ([sizes.height, sizes.crownBase, sizes.radius].some(isByAllometry)) noteRegion(chosen, log);
    return tree;
  });
  const doubts = unitDoubts(
    readings.map(({ measured }) => measured),
    read,
    features[0]?.file ?? null,
  );
  return { trees, setAside, findings: [...missingColumns, ...doubts, ...log.list()] };
}

function addMedians(medians: ReturnType<typeof inventoryMedians>, { measured, match, fields }: ReadTree): void {
  const { height, crownBase, radius } = measured;
  if (height === null || fields.condition === "dead") return;
  medians.add("height", match.traits, fields.form, height.valueM);
  if (crownBase !== null) medians.add("base-share", match.traits, fields.form, crownBase.valueM / height.valueM);
  if (radius !== null) medians.add("radius-share", match.traits, fields.form, radius.valueM / height.valueM);
}

/** Counts a tree with a size by allometry, with the region whose equations came first. */
function noteRegion({ region, because }: ChosenRegion, log: ReturnType<typeof findingLog>): void {
  const how =
    because === "nothing"
      ? "no region is known for the place, so each equation is the one fitted to most trees"
      : `equations of ${regionLabel(region!)} come first, by the ${because} given; others where it has none`;
  log.tally({
    code: "allometry-region",
    severity: "info",
    field: null,
    what: `sizes estimated by urban allometry; ${how}`,
    whatToDo: `Name the place by its state, or the climate that is likest: one of ${REGIONS.join(", ")}`,
  });
}

/** One finding for each mapped tree column that no feature has. */
function columnsNotFound(features: readonly SourceFeature[], columns: ColumnMap): Finding[] {
  const mapped = columns.trees as Readonly<Record<string, ColumnSource>> | undefined;
  if (mapped === undefined || features.length === 0) return [];
  return FIELDS.trees
    .filter((field) => Object.hasOwn(mapped, field) && mapped[field]!.column !== NOT_USED)
    .filter((field) => !features.some((feature) => Object.hasOwn(feature.properties, mapped[field]!.column)))
    .map((field) => ({
      code: "column-not-found",
      severity: "warning",
      layer: "columns",
      file: features[0]!.file,
      feature: null,
      field,
      value: mapped[field]!.column.slice(0, 256),
      reason: `No tree has the column ${mapped[field]!.column.slice(0, 256)} that ${field} is to be read from.`,
      whatToDo: "Correct the name in the column map, or take the field out of it.",
    }));
}
