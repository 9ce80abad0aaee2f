import type { IsoDate } from "../../core/units/calendar.ts";

/** A plan that a run carries on; plain data, so that it can be posted to a worker. */
export interface EarlierPlan {
  /** Files of its current revision by name; `trees.geojson` and exports are not needed. */
  readonly files: ReadonlyMap<string, Uint8Array>;
  /** Files of the revision that changes count from, the last one made from an inventory; left out takes the current one. */
  readonly since?: ReadonlyMap<string, Uint8Array>;
  /** Day on which the new inventory's sizes were measured, at the latest; null takes the as-of date. */
  readonly measuredOn: IsoDate | null;
}

/** Names of the files that {@link EarlierPlan} needs of a revision, where it has them. */
export const EARLIER_NAMES = [
  "plan.json",
  "prescriptions.jsonl",
  "conflicts.geojson",
  "surroundings.geojson",
  "sight.geojson",
  "zones.geojson",
  "findings.csv",
  "columns.json",
  "standard.json",
  "record.jsonl",
  "words.jsonl",
  "layer-buildings.geojson",
  "layer-roads.geojson",
  "layer-paths.geojson",
  "layer-signs.geojson",
  "layer-signals.geojson",
  "layer-conductors.geojson",
] as const;
