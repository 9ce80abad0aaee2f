import type { Position } from "geojson";
import type { SourceFeature } from "../model/feature.ts";
import type { Basis } from "../model/terms.ts";
import { parseDecimal } from "../units/parse-length.ts";
import { type Gathering, plainFeature } from "./gathering.ts";
import { readLengthM, readTag, readValue, textOf, wordOf } from "./read-value.ts";

/** Tallest building taken as one, meters; above it a height is a slip of units or digits. The tallest standing is 828 m. */
const MAX_HEIGHT_M = 900;

/** Adds buildings: polygons with their height measured, from storeys, or assumed. What lies underground is shown, not measured. */
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
    const height = heightOf(gathering, feature);
    gathering.features.push({
      ...plainFeature(id, feature, name, "building"),
      heightM: height.heightM,
      heightSource: height.source,
    });
    if (wordOf(readTag(feature, "location")) === "underground" || Number(textOf(readTag(feature, "layer")) ?? 0) < 0) {
      gathering.find(feature, "building-underground", "info", {
        reason: "The building is recorded as underground and is not measured.",
        whatToDo: "Correct its location or layer if it stands above ground.",
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

/** The rings of a polygon or of all polygons of a multipolygon; null for another geometry. */
export function ringsOf(feature: SourceFeature): readonly (readonly Position[])[] | null {
  if (feature.geometry.type === "Polygon") return feature.geometry.coordinates;
  return feature.geometry.type === "MultiPolygon" ? feature.geometry.coordinates.flat() : null;
}

function heightOf(gathering: Gathering, feature: SourceFeature): { heightM: number; basis: Basis; source: string } {
  const { columns, standard } = gathering;
  const heightM = readLengthM(columns, "buildings", "height", feature, "building:height");
  if (heightM !== null && heightM <= MAX_HEIGHT_M) return { heightM, basis: "measured", source: "height" };
  if (heightM !== null) {
    gathering.find(feature, "building-height-impossible", "warning", {
      field: "height",
      value: heightM,
      reason: `A height of ${heightM.toFixed(0)} m is more than any building has; it is treated as unknown.`,
      whatToDo: "Check the value and the unit of the column.",
    });
  }
  const levels = readValue(columns, "buildings", "levels", feature, "building:levels");
  const count = typeof levels === "number" ? levels : typeof levels === "string" ? parseDecimal(levels) : null;
  if (count !== null && count > 0 && count * standard.storeyHeightM <= MAX_HEIGHT_M) {
    const source = `${count} storeys of ${standard.storeyHeightM.toFixed(2)} m`;
    return { heightM: Math.max(1, count) * standard.storeyHeightM, basis: "estimated", source };
  }
  return { heightM: standard.assumedBuildingHeightM, basis: "assumed", source: "assumed: neither height nor storeys" };
}
