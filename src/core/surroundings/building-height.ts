import type { SourceFeature } from "../model/feature.ts";
import type { Basis } from "../model/terms.ts";
import { parseDecimal } from "../units/parse-length.ts";
import type { Gathering } from "./gathering.ts";
import { readLengthM, readLengthOrZeroM, readTag, readValue, textOf, wordOf } from "./read-value.ts";

/** Tallest building taken as one, meters; above it a height is a slip of units or digits. The tallest standing is 828 m. */
const MAX_HEIGHT_M = 900;
/** An assumed underside leaves a roof at least this share of its height. Our policy. */
const LEAST_ROOF_SHARE = 0.25;

/** Values of `building` that are a roof on columns. */
const CANOPIES = new Set(["roof", "carport", "canopy"]);

/** From where to where a building stands, in meters above its ground, and how that is known. */
export interface BuildingHeight {
  readonly heightM: number;
  readonly basis: Basis;
  readonly source: string;
  readonly bottomM: number;
  readonly bottomBasis: Basis;
}

/**
 * A building's height: its column, else storeys by the standard's height of one, else assumed, one storey for a roof on columns. Its
 * underside: `min_height`, else the lowest storey, else the ground; under a roof on columns the standard's height of a canopy.
 */
export function buildingHeight(gathering: Gathering, feature: SourceFeature): BuildingHeight {
  const isCanopy = CANOPIES.has(wordOf(readTag(feature, "building")));
  const top = topOf(gathering, feature, isCanopy);
  return { ...top, ...bottomOf(gathering, feature, top.heightM, isCanopy) };
}

function topOf(
  gathering: Gathering,
  feature: SourceFeature,
  isCanopy: boolean,
): Pick<BuildingHeight, "heightM" | "basis" | "source"> {
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
  } else tellUnreadable(gathering, feature);
  const count = countOf(readValue(columns, "buildings", "levels", feature, "building:levels"));
  if (count !== null && count > 0 && count * standard.storeyHeightM <= MAX_HEIGHT_M) {
    const source = `${count} storeys of ${standard.storeyHeightM.toFixed(2)} m`;
    return { heightM: Math.max(1, count) * standard.storeyHeightM, basis: "estimated", source };
  }
  return isCanopy
    ? { heightM: standard.storeyHeightM, basis: "assumed", source: "assumed: one storey, a roof on columns" }
    : { heightM: standard.assumedBuildingHeightM, basis: "assumed", source: "assumed: neither height nor storeys" };
}

function tellUnreadable(gathering: Gathering, feature: SourceFeature): void {
  const value = readValue(gathering.columns, "buildings", "height", feature, "building:height");
  if (value === undefined || (typeof value !== "object" && Number(value) === 0)) return;
  gathering.find(feature, "building-height-unreadable", "info", {
    field: "height",
    value,
    reason: "The height could not be read; it is treated as unknown.",
    whatToDo: "Give a number with its unit, for example 24 ft.",
  });
}

function bottomOf(
  gathering: Gathering,
  feature: SourceFeature,
  topM: number,
  isCanopy: boolean,
): Pick<BuildingHeight, "bottomM" | "bottomBasis"> {
  const { columns, standard } = gathering;
  const givenM = readLengthOrZeroM(columns, "buildings", "min_height", feature, "building:min_height");
  const level = countOf(readTag(feature, "building:min_level"));
  const bottomM = givenM ?? (level !== null && level > 0 ? level * standard.storeyHeightM : null);
  if (bottomM !== null && bottomM < topM) {
    return { bottomM, bottomBasis: givenM === null ? "estimated" : "measured" };
  }
  if (bottomM !== null) {
    gathering.find(feature, "building-underside-impossible", "warning", {
      field: "min_height",
      value: bottomM,
      reason: `An underside at ${bottomM.toFixed(1)} m is not below the building's height of ${topM.toFixed(1)} m; it is taken to stand on the ground.`,
      whatToDo: "Check both values and their units.",
    });
    return { bottomM: 0, bottomBasis: "assumed" };
  }
  if (!isCanopy) return { bottomM: 0, bottomBasis: "measured" };
  return { bottomM: Math.min(standard.canopyUndersideM, topM * (1 - LEAST_ROOF_SHARE)), bottomBasis: "assumed" };
}

function countOf(value: unknown): number | null {
  return typeof value === "number" ? value : parseDecimal(textOf(value) ?? "");
}
