import type { Feature, FeatureCollection, Polygon } from "geojson";
import type { PlanLook } from "./plan-look.ts";

/**
 * The encroaching parts of the crowns in plan, each with its tree's urgency; of the trees of some rows. What a visit has worked on by the date
 * that is shown is left out; what grows in later has no measured part.
 */
export function encroachmentFeatures(
  { opened, dated, marks }: PlanLook,
  rows: Iterable<number>,
): FeatureCollection<Polygon> {
  const isAsked = new Set(rows);
  return {
    type: "FeatureCollection",
    features: opened.plan.conflicts.flatMap(
      ({ treeRow, conflictId, kind, certainty, encroachment }): Feature<Polygon>[] => {
        if (encroachment === null || !isAsked.has(treeRow)) return [];
        if (dated?.treeOn(treeRow).workedIds.has(conflictId)) return [];
        return [
          {
            type: "Feature",
            properties: { ...marks[treeRow]!, conflict: conflictId, kind, certainty },
            geometry: encroachment,
          },
        ];
      },
    ),
  };
}
