import type { FeatureCollection, Point } from "geojson";
import { radiusTowardM } from "../../core/crown/crown.ts";
import type { Prescription } from "../../core/model/prescription.ts";
import { type DisplayUnits, formatLength } from "../../core/units/format-length.ts";
import type { Words } from "../words.ts";
import { offsetLonLat } from "./ground-scale.ts";
import type { PlanLook } from "./plan-look.ts";

/**
 * What is to be done with its figure in the reader's units, such as `lift 1.2 m`, as points at the crowns' eastern edges; only where the plan view shows it, for the
 * trees of some rows. Once a visit is done by the date that is shown, the figure is history and left out.
 */
export function figureFeatures(
  { opened, dated, marks }: PlanLook,
  rows: Iterable<number>,
  units: DisplayUnits,
  words: Words,
): FeatureCollection<Point> {
  const { trees, prescriptions } = opened.plan;
  return {
    type: "FeatureCollection",
    features: [...rows].flatMap((row): FeatureCollection<Point>["features"] => {
      const tree = trees[row]!;
      const isBegun = dated !== null && dated.treeOn(row).done.length > 0;
      const text = isBegun ? null : figureText(prescriptions[row]!, units, words);
      if (text === null) return [];
      const reachM = radiusTowardM(dated?.crownOn(row).radii ?? tree.radii, 90);
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
