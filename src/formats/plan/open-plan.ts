import type { FeatureCollection, Geometry, MultiPolygon, Point, Polygon } from "geojson";
import type { ColumnMap } from "../../core/model/column-map.ts";
import type { Finding } from "../../core/model/finding.ts";
import type { Plan } from "../../core/model/plan.ts";
import { type PlanTexts, readPlan } from "../../core/plan/read-plan.ts";
import { readCsv } from "../csv.ts";
import type { PlanSource } from "./plan-source.ts";

/** A plan with the feature collections of its folder, as the map draws them. */
export interface OpenedPlan {
  readonly plan: Plan;
  /** Every original member of the trees with the `bough_` figures beside them. */
  readonly trees: FeatureCollection<Point>;
  readonly conflicts: FeatureCollection<Polygon | null>;
  readonly surroundings: FeatureCollection<Geometry>;
  readonly sight: FeatureCollection<Polygon>;
  readonly zones: FeatureCollection<MultiPolygon>;
  /** Which column of the inventory feeds which field; left out where `columns.json` is not at hand. */
  readonly columns?: ColumnMap;
}

/** Opens a revision. Throws Error naming the file that is missing, SyntaxError on broken JSON, RangeError on a newer format. */
export async function openPlan(source: PlanSource): Promise<OpenedPlan> {
  const [texts, trees, columns] = await Promise.all([
    planTexts(source),
    textOf(source, "trees.geojson"),
    source.read("columns.json"),
  ]);
  return {
    plan: readPlan(texts),
    trees: JSON.parse(trees),
    conflicts: JSON.parse(texts.conflicts),
    surroundings: JSON.parse(texts.surroundings),
    sight: JSON.parse(texts.sight),
    zones: JSON.parse(texts.zones),
    ...(columns === null ? {} : { columns: JSON.parse(new TextDecoder().decode(columns)) }),
  };
}

/** The plan of a revision alone, without the features that a map draws. Throws as {@link openPlan} does. */
export const openPlanAlone = async (source: PlanSource): Promise<Plan> => readPlan(await planTexts(source));

async function planTexts(source: PlanSource): Promise<PlanTexts> {
  const [manifest, prescriptions, conflicts, surroundings, sight, zones, findings] = await Promise.all(
    [
      "plan.json",
      "prescriptions.jsonl",
      "conflicts.geojson",
      "surroundings.geojson",
      "sight.geojson",
      "zones.geojson",
      "findings.csv",
    ].map((name) => textOf(source, name)),
  );
  return {
    manifest: manifest!,
    prescriptions: prescriptions!,
    conflicts: conflicts!,
    surroundings: surroundings!,
    sight: sight!,
    zones: zones!,
    findings: findingsOf(findings!),
  };
}

async function textOf(source: PlanSource, name: string): Promise<string> {
  const bytes = await source.read(name);
  if (bytes === null) throw new Error(`This is not a whole plan: ${name} is missing`);
  return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
}

function findingsOf(csv: string): Finding[] {
  const [, ...rows] = readCsv(csv);
  const orNull = (cell: string | undefined) => (cell === undefined || cell === "" ? null : cell);
  return rows.map(([code = "", severity, layer, file, feature, field, value, reason = "", whatToDo = ""]) => ({
    code,
    severity: severity as Finding["severity"],
    layer: layer as Finding["layer"],
    file: orNull(file),
    feature: orNull(feature),
    field: orNull(field),
    value: orNull(value),
    reason,
    whatToDo,
  }));
}
