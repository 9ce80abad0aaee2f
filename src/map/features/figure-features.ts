import type { FeatureCollection, Point } from "geojson";
import { radiusTowardM } from "../../core/crown/crown.ts";
import type { Plan } from "../../core/model/plan.ts";
import type { Prescription } from "../../core/model/prescription.ts";
import { type DisplayUnits, formatLength } from "../../core/units/format-length.ts";
import type { Words } from "../words.ts";
import { offsetLonLat } from "./ground-scale.ts";
import type { TreeMark } from "./tree-marks.ts";

/** What is to be done with its figure in the reader's units, such as `lift 1.2 m`, as points at the crowns' eastern edges; only where the plan view shows it. */
export function figureFeatures(
  plan: Plan,
  marks: readonly TreeMark[],
  units: DisplayUnits,
  words: Words,
): FeatureCollection<Point> {
  return {
    type: "FeatureCollection",
    features: plan.trees.flatMap((tree, row): FeatureCollection<Point>["features"] => {
      const text = figureText(plan.prescriptions[row]!, units, words);
      if (text === null) return [];
      const reachM = radiusTowardM(tree.radii, 90);
      return [
        {
          type: "Feature",
          properties: { ...marks[row]!, text },
          geometry: { type: "Point", coordinates: offsetLonLat(tree.lonDeg, tree.latDeg, reachM, 0) },
        },
      ];
    }),
  };
}

function figureText(prescription: Prescription, units: DisplayUnits, words: Words): string | null {
  const { remedy, liftM, shortenM } = prescription;
  if (remedy !== "lift" && remedy !== "shorten" && remedy !== "remove-limb") return null;
  const figureM = remedy === "lift" ? liftM : remedy === "shorten" ? shortenM : null;
  return figureM === null ? words.remedy[remedy] : `${words.remedy[remedy]} ${formatLength(figureM, units)}`;
}
