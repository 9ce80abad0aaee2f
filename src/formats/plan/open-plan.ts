import type { Feature, FeatureCollection, Geometry, MultiPolygon, Point, Polygon } from "geojson";
import type { ColumnMap } from "../../core/model/column-map.ts";
import type { Finding } from "../../core/model/finding.ts";
import type { Plan } from "../../core/model/plan.ts";
import { type PlanTexts, type PrescriptionLine, readPlan } from "../../core/plan/read-plan.ts";
import { conflictOf } from "../../core/plan/read-records.ts";
import { readCsv } from "../csv.ts";
import type { PlanSource } from "./plan-source.ts";
import { featureRecords, lineRecords, madeInTurns, type Turn } from "./records-of-file.ts";

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

/**
 * Opens a revision. Large files are read a line at a time, and where `turn` is given other work has its turn meanwhile. Throws Error naming the file that is
 * missing, SyntaxError on broken JSON, RangeError on a newer format.
 */
export async function openPlan(source: PlanSource, turn: Turn = noTurn): Promise<OpenedPlan> {
  const { texts, conflicts } = await planTexts(source, turn);
  const columns = await source.read("columns.json");
  const trees = await featureRecords<Point>(await bytesOf(source, "trees.geojson"), turn);
  const plan = readPlan(texts);
  await turn();
  return {
    plan,
    trees: { type: "FeatureCollection", features: trees },
    conflicts: { type: "FeatureCollection", features: conflicts },
    surroundings: JSON.parse(texts.surroundings),
    sight: JSON.parse(texts.sight),
    zones: JSON.parse(texts.zones),
    ...(columns === null ? {} : { columns: JSON.parse(new TextDecoder().decode(columns)) }),
  };
}

/** The plan of a revision alone, without the features that a map draws. Throws as {@link openPlan} does. */
export const openPlanAlone = async (source: PlanSource): Promise<Plan> =>
  readPlan((await planTexts(source, noTurn)).texts);

const noTurn = async (): Promise<void> => {};

async function planTexts(
  source: PlanSource,
  turn: Turn,
): Promise<{ readonly texts: PlanTexts; readonly conflicts: Feature<Polygon | null>[] }> {
  const [manifest, surroundings, sight, zones, findings] = await Promise.all(
    ["plan.json", "surroundings.geojson", "sight.geojson", "zones.geojson", "findings.csv"].map((name) =>
      textOf(source, name),
    ),
  );
  const prescriptions = await lineRecords<PrescriptionLine>(await bytesOf(source, "prescriptions.jsonl"), turn);
  const conflicts = await featureRecords<Polygon | null>(await bytesOf(source, "conflicts.geojson"), turn);
  const rowOfTree = new Map(prescriptions.map(({ tree }, row) => [tree.id, row]));
  const texts = {
    manifest: manifest!,
    prescriptions,
    conflicts: await madeInTurns(conflicts, (feature) => conflictOf(feature, rowOfTree), turn),
    surroundings: surroundings!,
    sight: sight!,
    zones: zones!,
    findings: findingsOf(findings!),
  };
  return { texts, conflicts };
}

async function bytesOf(source: PlanSource, name: string): Promise<Uint8Array> {
  const bytes = await source.read(name);
  if (bytes === null) throw new Error(`This is not a whole plan: ${name} is missing`);
  return bytes;
}

const textOf = async (source: PlanSource, name: string): Promise<string> =>
  new TextDecoder("utf-8", { fatal: true }).decode(await bytesOf(source, name));

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
