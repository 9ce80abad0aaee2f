import wktParser from "wkt-parser";
import { isObject, ownMember } from "../json/own-member.ts";
import { builtInSystem } from "./built-in-system.ts";
import { codeOf, unknownSystem } from "./crs-name.ts";
import { type Datum, isWorldEllipsoid, WGS84_DATUM } from "./datum.ts";
import { systemOfDefinition } from "./proj-system.ts";
import type { CoordinateSystem } from "./system.ts";

/** A datum with the proj4 parameters that shape and shift it. */
type ShiftedDatum = Datum & { readonly parameters: string };

const DEGREE = Math.PI / 180;
const HORIZONTAL = ["PROJCS[", "PROJCRS[", "PROJECTEDCRS[", "GEOGCS[", "GEOGCRS[", "GEODCRS[", "GEOGRAPHICCRS["];

/**
 * The system of WKT text of version 1 (a `.prj` file's too) or 2, or of PROJJSON; of a compound system its horizontal part.
 *
 * A code that the text names and the table knows counts, else the text's own figures with the datum's shift from the table. Throws
 * RangeError for text that cannot be read, for axes that do not point east and north, and for local systems without a place on earth.
 */
export function wktSystem(
  text: string,
  systemOfCode: (code: number) => CoordinateSystem | null,
  datumOfName: (name: string) => ShiftedDatum | null,
): CoordinateSystem {
  const source = text.startsWith("{") ? horizontalJson(text) : horizontalText(text);
  const definition = parse(source);
  const title = textOf(ownMember(definition, "title"));
  const code = title === null ? null : codeOf(title);
  const known = code === null ? null : (builtInSystem(`EPSG:${code}`) ?? systemOfCode(code));
  if (known !== null) return known;
  const name = (textOf(ownMember(definition, "name")) ?? text).slice(0, 80);
  if (isWebMercator(definition, name)) return builtInSystem("EPSG:3857")!;
  const axis = textOf(ownMember(definition, "axis"));
  if (axis !== null && !axis.startsWith("en") && !axis.startsWith("ne")) {
    throw unknownSystem(name, "has axes that do not point east and north");
  }
  if (!hasDegrees(definition)) throw unknownSystem(name, "gives its angles in another unit than degrees");
  const { datum, shift } = datumOf(definition, source, datumOfName);
  return systemOfDefinition(
    { name, title: name, datum, area: null },
    { ...(definition as object), datumCode: "none", datum_params: shift ?? undefined, nadgrids: undefined },
  );
}

/** Web Mercator takes longitude and latitude of the ellipsoid for those of a sphere, which its method's names say and its figures do not. */
function isWebMercator(definition: unknown, name: string): boolean {
  const method = textOf(ownMember(definition, "projName")) ?? "";
  return (
    ownMember(definition, "sphere") === true || /(pseudo|web).?mercator|auxiliary.?sphere/i.test(`${name} ${method}`)
  );
}

function parse(source: string | object): unknown {
  let definition: unknown;
  try {
    definition = wktParser(source);
  } catch {
    definition = null;
  }
  const method = textOf(ownMember(definition, "projName"));
  if (method === null || method === "identity" || method === "geocent")
    throw unknownSystem(typeof source === "string" ? source : "PROJJSON", "cannot be read");
  return definition;
}

/** PROJJSON as a value; of a compound system its first part. */
function horizontalJson(text: string): object {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    throw unknownSystem(text, "is not JSON");
  }
  const components = ownMember(value, "components");
  const first = Array.isArray(components) ? components[0] : value;
  if (!isObject(first)) throw unknownSystem(text, "is no PROJJSON");
  return first;
}

/** WKT text; of a compound system its first part that places things on the earth. */
function horizontalText(text: string): string {
  const upper = text.toUpperCase();
  if (!upper.startsWith("COMPD_CS") && !upper.startsWith("COMPOUNDCRS")) return text;
  const starts = HORIZONTAL.map((word) => upper.indexOf(word)).filter((at) => at !== -1);
  if (starts.length === 0) return text;
  const start = Math.min(...starts);
  let depth = 0;
  for (let at = start; at < text.length; at += 1) {
    if (text[at] === '"') at = Math.max(at, text.indexOf('"', at + 1));
    else if (text[at] === "[") depth += 1;
    else if (text[at] === "]") {
      depth -= 1;
      if (depth === 0) return text.slice(start, at + 1);
    }
  }
  return text;
}

/** The datum and its seven parameters for proj4; null parameters where no shift is known. */
function datumOf(
  definition: unknown,
  source: string | object,
  datumOfName: (name: string) => ShiftedDatum | null,
): { datum: Datum; shift: readonly string[] | null } {
  const name = datumNameOf(source);
  const given = ownMember(definition, "datum_params");
  if (Array.isArray(given) && given.some((value) => Number(value) !== 0)) {
    const datum: Datum = { name, kind: "shifted", errorM: null, source: "the definition given" };
    return { datum, shift: given.map(String) };
  }
  if (/^(world geodetic system|wgs)[ _]?(19)?84$/i.test(name.replace(/^D_/, ""))) {
    return { datum: WGS84_DATUM, shift: ["0", "0", "0"] };
  }
  const known = datumOfName(name);
  if (known !== null) {
    const towgs84 = /towgs84=([^ ]+)/.exec(known.parameters)?.[1]?.split(",") ?? null;
    return { datum: known, shift: towgs84 };
  }
  const isWorld = isWorldEllipsoid(Number(ownMember(definition, "a")), Number(ownMember(definition, "rf")));
  const datum: Datum = { name, kind: isWorld ? "same" : "unknown", errorM: null, source: null };
  return { datum, shift: isWorld ? ["0", "0", "0"] : null };
}

function datumNameOf(source: string | object): string {
  if (typeof source === "string") {
    const named = /(?:DATUM|ENSEMBLE)\s{0,8}\[\s{0,8}"([^"]{1,200})"/i.exec(source);
    return (named?.[1] ?? "unnamed").replace(/ ensemble$/, "");
  }
  const base = ownMember(source, "base_crs") ?? source;
  const datum = ownMember(base, "datum") ?? ownMember(base, "datum_ensemble");
  return (textOf(ownMember(datum, "name")) ?? "unnamed").slice(0, 200).replace(/ ensemble$/, "");
}

/** Whether WKT 1 gives its angles in degrees; the parser takes them so. */
function hasDegrees(definition: unknown): boolean {
  const geographic = ownMember(definition, "GEOGCS") ?? definition;
  const unit = ownMember(geographic, "UNIT");
  if (ownMember(geographic, "type") !== "GEOGCS") return true;
  const convert = Number(ownMember(unit, "convert"));
  return Number.isNaN(convert) || Math.abs(convert - DEGREE) < 1e-6;
}

const textOf = (value: unknown): string | null => (typeof value === "string" && value !== "" ? value : null);
