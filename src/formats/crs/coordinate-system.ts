import { builtInSystem } from "./built-in-system.ts";
import type { CoordinateSystem, FindSystem } from "./system.ts";

export { type CoordinateSystem, type FindSystem, WGS84 } from "./system.ts";

/**
 * The system of a name or definition: `EPSG:n`, `ESRI:n`, an OGC URN or address ending in the code, `OGC:CRS84`, `+proj=...`, WKT of
 * version 1 (also a `.prj` file's) or 2, or PROJJSON. About 7,100 codes are known offline; nothing is looked up.
 *
 * The table is loaded only for what needs it. Rejects with RangeError for everything else, with what to give instead.
 */
export async function coordinateSystem(text: string): Promise<CoordinateSystem> {
  return builtInSystem(text) ?? (await findAnySystem())(text);
}

/** A finder of every system this program knows, with its table loaded. */
export async function findAnySystem(): Promise<FindSystem> {
  const { epsgSystems } = await import("./epsg-systems.ts");
  return epsgSystems;
}
