import { builtInSystem } from "./built-in-system.ts";
import { codeOf, MAX_DEFINITION, unknownSystem } from "./crs-name.ts";
import type { Datum } from "./datum.ts";
import table from "./epsg-definitions.json";
import { systemOfDefinition } from "./proj-system.ts";
import type { CoordinateSystem } from "./system.ts";
import { wktSystem } from "./wkt-system.ts";

/** A datum of the table with the proj4 parameters that shape and shift it. */
export interface TableDatum extends Datum {
  readonly parameters: string;
}

/** Systems are lines in the order of their codes; they are cut into parts when asked for. */
const codes = Int32Array.from(table.systems, (line) => Number.parseInt(line, 10));
const datums: readonly TableDatum[] = table.datums.map((line) => {
  const [name = "", parameters = "", kind = "unknown", errorM = "", source = ""] = line.split("|");
  return {
    name: name.replaceAll("_", " "),
    parameters,
    kind: kind as Datum["kind"],
    errorM: errorM === "" ? null : Number(errorM),
    source: source === "" ? null : source,
  };
});

/** The system of any name or definition this program knows. Throws RangeError for another, with what to give instead. */
export function epsgSystems(text: string): CoordinateSystem {
  const trimmed = text.trim();
  if (trimmed.length > MAX_DEFINITION) throw unknownSystem(trimmed, `is longer than ${MAX_DEFINITION} characters`);
  if (trimmed.includes("[") || trimmed.startsWith("{")) return wktSystem(trimmed, systemOfCode, datumOfName);
  const own = builtInSystem(trimmed);
  if (own !== null) return own;
  const code = codeOf(trimmed);
  const system = code === null ? null : systemOfCode(code);
  if (system === null) throw unknownSystem(trimmed);
  return system;
}

/** The system of an EPSG or ESRI code in the table, under its EPSG code where it has one; null for another. */
export function systemOfCode(code: number): CoordinateSystem | null {
  const row = rowOf(code);
  if (row === null) {
    const alias = table.esriCodes.find((line) => line.startsWith(`${code}|`));
    return alias === undefined ? null : systemOfCode(Number(alias.slice(alias.indexOf("|") + 1)));
  }
  const [, title = "", projection = "", datumAt = "", area = ""] = table.systems[row]!.split("|");
  const datum = datums[Number(datumAt)]!;
  const definition = `+proj=${projection} ${datum.parameters} no_defs`.replaceAll(" ", " +");
  const [west, south, east, north] = area.split(" ").map(Number);
  const label = {
    name: `EPSG:${code}`,
    title,
    datum,
    area: north === undefined ? null : ([west!, south!, east!, north] as const),
  };
  return systemOfDefinition(label, definition);
}

/** The first datum of the table with a name, compared without case and marks, an ESRI name's `D_` left out; null without one. */
export function datumOfName(name: string): TableDatum | null {
  const wanted = plainName(name.slice(0, 256));
  if (wanted === "") return null;
  const alias = table.esriDatums.find((line) => line.startsWith(`${wanted}|`));
  if (alias !== undefined) return datums[Number(alias.slice(wanted.length + 1))] ?? null;
  return datums.find((datum) => plainName(datum.name) === wanted) ?? null;
}

function plainName(name: string): string {
  return name
    .toLowerCase()
    .replace(/^d_/, "")
    .replace(/[^a-z0-9+]/g, "");
}

function rowOf(code: number): number | null {
  let low = 0;
  let high = codes.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (codes[middle]! < code) low = middle + 1;
    else high = middle;
  }
  return codes[low] === code ? low : null;
}
