import type { Feature, Polygon, Position } from "geojson";

/** What a solid shows. */
export type SolidPart = "trunk" | "crown" | "encroachment" | "building" | "wire" | "pole" | "clearance";

/** A column over an outline in plan, from one height above ground to another, as the map extrudes it; meters. */
export type Solid = Feature<Polygon, { part: SolidPart; baseM: number; topM: number; [member: string]: unknown }>;

/** A column over a ring in longitude and latitude; the ring need not be closed. */
export function solid(
  part: SolidPart,
  ring: readonly Position[],
  baseM: number,
  topM: number,
  members: Readonly<Record<string, unknown>> = {},
): Solid {
  const coordinates = [[...ring, ring[0]!]];
  return {
    type: "Feature",
    properties: { ...members, part, baseM: rounded(baseM), topM: rounded(topM) },
    geometry: { type: "Polygon", coordinates },
  };
}

/** To the centimeter: finer is not seen, and longer numbers only cost. */
const rounded = (valueM: number): number => Math.round(valueM * 100) / 100;
