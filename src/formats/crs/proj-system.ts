import proj4 from "proj4";
import { unknownSystem } from "./crs-name.ts";
import { type Datum, WGS84_DATUM } from "./datum.ts";
import type { CoordinateSystem } from "./system.ts";

/** What is known of a system beside its definition. */
export type SystemLabel = Pick<CoordinateSystem, "name" | "title" | "datum" | "area">;

const TARGET = "+proj=longlat +datum=WGS84 +no_defs";
/** Names of datums in proj4 text that are WGS 84, or taken for it. */
const WORLD_FIGURES: ReadonlySet<string> = new Set(["GRS80", "WGS84", "GSK2011"]);

/** The system of a definition that proj4 understands. Throws RangeError for another. */
export function systemOfDefinition(label: SystemLabel, definition: string | object): CoordinateSystem {
  let forward: (position: [number, number]) => [number, number];
  let isGeographic: boolean;
  try {
    const source = new proj4.Proj(definition as string);
    isGeographic = (source as { projName?: unknown }).projName === "longlat";
    forward = proj4(source as unknown as string, TARGET).forward;
    forward([0, 0]);
  } catch {
    throw unknownSystem(label.name, "cannot be computed here");
  }
  if (isGeographic && label.datum.kind !== "shifted") return { ...label, isGeographic, toLonLat: null };
  const toLonLat = (x: number, y: number): [number, number] => {
    try {
      return forward([x, y]);
    } catch {
      return [Number.NaN, Number.NaN];
    }
  };
  return { ...label, isGeographic, toLonLat };
}

/**
 * The system of a proj4 text. Throws RangeError for one that cannot be computed: an unknown projection, a grid file, or axes that do not
 * point east and north.
 */
export function projSystem(text: string): CoordinateSystem {
  const parameters = new Map<string, string>();
  for (const part of text.split(/\s/)) {
    const [key = "", value = ""] = part.split("=", 2);
    if (key.startsWith("+")) parameters.set(key.slice(1), value);
  }
  if (!parameters.has("proj")) throw unknownSystem(text);
  const axis = parameters.get("axis");
  if (axis !== undefined && !axis.startsWith("en"))
    throw unknownSystem(text, "has axes that do not point east and north");
  const grids = parameters.get("nadgrids");
  if (grids !== undefined && grids !== "@null") {
    throw unknownSystem(text, "needs a grid file, which is not read; put +towgs84=... in its place");
  }
  const label = { name: text.slice(0, 80), title: text.slice(0, 80), datum: datumOf(parameters), area: null };
  return systemOfDefinition(label, text);
}

function datumOf(parameters: ReadonlyMap<string, string>): Datum {
  const towgs84 = parameters.get("towgs84");
  const name = parameters.get("datum") ?? parameters.get("ellps") ?? "WGS84";
  if (parameters.get("nadgrids") === "@null" || (name === "WGS84" && towgs84 === undefined)) return WGS84_DATUM;
  if (towgs84?.split(",").some((value) => Number(value) !== 0)) {
    return {
      name: `given by +towgs84=${towgs84.slice(0, 80)}`,
      kind: "shifted",
      errorM: null,
      source: "the definition given",
    };
  }
  if (WORLD_FIGURES.has(name) || name === "NAD83" || towgs84 !== undefined) {
    return { name: name === "GRS80" ? "on the ellipsoid GRS80" : name, kind: "same", errorM: null, source: null };
  }
  return { name: name.slice(0, 80), kind: "unknown", errorM: null, source: null };
}
