import type { Feature, FeatureCollection, Polygon } from "geojson";
import { radiusTowardM } from "../../core/crown/crown.ts";
import { offsetLonLat } from "./ground-scale.ts";
import type { PlanLook } from "./plan-look.ts";

/** Corners of a drawn crown: at 15 m across a chord strays 3 cm from the ellipse, under a pixel at any zoom. */
const CROWN_STEPS = 48;
const TRUNK_STEPS = 20;

/**
 * The crowns' outlines in plan at true size where they stand, grown to the date that is shown, and the trunks where the stem diameter is
 * known; of the trees of some rows.
 */
export function crownFeatures({ opened, dated, marks }: PlanLook, rows: Iterable<number>): FeatureCollection<Polygon> {
  const features: Feature<Polygon>[] = [];
  for (const row of rows) {
    const tree = opened.plan.trees[row]!;
    const radii = dated?.crownOn(row).radii ?? tree.radii;
    const mark = marks[row]!;
    const axis = offsetLonLat(tree.lonDeg, tree.latDeg, tree.crownEastM ?? 0, tree.crownNorthM ?? 0);
    features.push(outline(axis, CROWN_STEPS, (bearing) => radiusTowardM(radii, bearing), { ...mark, part: "crown" }));
    if (tree.dbhM !== null && tree.dbhM > 0) {
      const radiusM = tree.dbhM / 2;
      features.push(
        outline([tree.lonDeg, tree.latDeg], TRUNK_STEPS, () => radiusM, {
          tree: tree.id,
          part: "trunk",
          shows: mark.shows,
        }),
      );
    }
  }
  return { type: "FeatureCollection", features };
}

function outline(
  [lonDeg, latDeg]: readonly [number, number],
  steps: number,
  radiusM: (bearingDeg: number) => number,
  properties: Record<string, unknown>,
): Feature<Polygon> {
  const ring: [number, number][] = [];
  for (let step = 0; step < steps; step += 1) {
    const bearing = 360 - (360 * step) / steps;
    const angle = (bearing * Math.PI) / 180;
    const lengthM = radiusM(bearing % 360);
    ring.push(offsetLonLat(lonDeg, latDeg, lengthM * Math.sin(angle), lengthM * Math.cos(angle)));
  }
  ring.push(ring[0]!);
  return { type: "Feature", properties, geometry: { type: "Polygon", coordinates: [ring] } };
}
