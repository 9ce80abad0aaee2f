import type { Feature, FeatureCollection, Polygon } from "geojson";
import type { Plan } from "../../core/model/plan.ts";
import type { TreeMark } from "./tree-marks.ts";

/** The encroaching parts of the crowns in plan, each with its tree's urgency. */
export function encroachmentFeatures(plan: Plan, marks: readonly TreeMark[]): FeatureCollection<Polygon> {
  const markOf = new Map(marks.map((mark) => [mark.tree, mark]));
  return {
    type: "FeatureCollection",
    features: plan.conflicts.flatMap((conflict): Feature<Polygon>[] => {
      const mark = markOf.get(conflict.treeId);
      if (mark === undefined || conflict.encroachment === null) return [];
      return [
        {
          type: "Feature",
          properties: { ...mark, conflict: conflict.conflictId, kind: conflict.kind, certainty: conflict.certainty },
          geometry: conflict.encroachment,
        },
      ];
    }),
  };
}
