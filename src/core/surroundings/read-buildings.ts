import type { Position } from "geojson";
import type { SourceFeature } from "../model/feature.ts";
import { buildingHeight } from "./building-height.ts";
import { type Gathering, plainFeature } from "./gathering.ts";
import { readTag, readValue, textOf, wordOf } from "./read-value.ts";

/** Adds buildings: polygons with their height measured, from storeys, or assumed. What lies underground or is gone is shown, not measured. */
export function readBuildings(gathering: Gathering, features: readonly SourceFeature[]): void {
  let assumed = 0;
  for (const feature of features) {
    const rings = ringsOf(feature);
    if (rings === null) {
      gathering.leaveOutGeometry(feature, "buildings as Polygon or MultiPolygon");
      continue;
    }
    if (gathering.isTooWide(feature, rings, true)) continue;
    const id = gathering.idOf(feature);
    const name = textOf(readValue(gathering.columns, "buildings", "name", feature, "addr:housename"));
    const height = buildingHeight(gathering, feature);
    gathering.features.push({
      ...plainFeature(id, feature, name, "building"),
      heightM: height.heightM,
      heightSource:
        height.bottomM > 0
          ? `${height.source}; underside at ${height.bottomM.toFixed(1)} m, ${height.bottomBasis}`
          : height.source,
    });
    if (wordOf(readTag(feature, "location")) === "underground" || Number(textOf(readTag(feature, "layer")) ?? 0) < 0) {
      gathering.find(feature, "building-underground", "info", {
        reason: "The building is recorded as underground and is not measured.",
        whatToDo: "Correct its location or layer if it stands above ground.",
      });
      continue;
    }
    if (GONE.has(wordOf(readTag(feature, "building")))) {
      gathering.find(feature, "building-not-standing", "info", {
        field: "building",
        value: readTag(feature, "building"),
        reason: "The building is recorded as not standing and is not measured.",
        whatToDo: "Correct its building value if it stands.",
      });
      continue;
    }
    if (height.basis === "assumed") assumed += 1;
    const envelope = gathering.addEnvelope({
      type: "building",
      withLayer: "buildings",
      withId: id,
      withName: name,
      heightM: height.heightM,
      heightBasis: height.basis,
      bottomM: height.bottomM,
      bottomBasis: height.bottomBasis,
    });
    gathering.shapes.addArea(envelope, rings);
  }
  if (assumed > 0) {
    gathering.findings.push({
      code: "building-height-assumed",
      severity: "info",
      layer: "buildings",
      file: null,
      feature: null,
      field: "height",
      value: null,
      reason: `${assumed} of ${features.length} buildings have neither height nor storeys; ${gathering.standard.assumedBuildingHeightM.toFixed(1)} m is assumed.`,
      whatToDo: "Map the column of heights or storeys; conflicts with these buildings are at most probable.",
    });
  }
}

/** Values of `building` for what does not stand, or not yet. */
const GONE = new Set(["no", "demolished", "razed", "proposed", "planned"]);

/** The rings of a polygon or of all polygons of a multipolygon; null for another geometry. */
export function ringsOf(feature: SourceFeature): readonly (readonly Position[])[] | null {
  if (feature.geometry.type === "Polygon") return feature.geometry.coordinates;
  return feature.geometry.type === "MultiPolygon" ? feature.geometry.coordinates.flat() : null;
}
