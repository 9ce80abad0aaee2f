import { codeOf, isCrs84, MAX_DEFINITION, unknownSystem } from "./crs-name.ts";
import type { Datum } from "./datum.ts";
import { projSystem, systemOfDefinition } from "./proj-system.ts";
import { type CoordinateSystem, type FindSystem, WGS84 } from "./system.ts";

const WORLD: Datum = { name: "", kind: "same", errorM: null, source: null };
const NAD83: Datum = { ...WORLD, name: "North American Datum 1983" };
const ETRS89: Datum = { ...WORLD, name: "European Terrestrial Reference System 1989" };

/** Geographic systems taken as they are, beside WGS 84. */
const GEOGRAPHIC: ReadonlyMap<number, { readonly title: string; readonly datum: Datum }> = new Map([
  [4269, { title: "NAD83", datum: NAD83 }],
  [4258, { title: "ETRS89", datum: ETRS89 }],
]);
const WEB_MERCATOR_CODES: ReadonlySet<number> = new Set([3857, 3785, 900913, 102100, 102113]);
const WEB_MERCATOR =
  "+proj=merc +a=6378137 +b=6378137 +lat_ts=0 +lon_0=0 +x_0=0 +y_0=0 +k=1 +units=m +nadgrids=@null +no_defs";

/**
 * The system of a name that needs no table: WGS 84, NAD83 and ETRS89 in degrees, web Mercator, UTM on WGS 84 (326xx, 327xx), NAD83
 * (26901-26923) and ETRS89 (25828-25838), and proj4 text. Null for every other; throws RangeError for proj4 text that cannot be read.
 */
export function builtInSystem(text: string): CoordinateSystem | null {
  const trimmed = text.trim();
  if (trimmed.length > MAX_DEFINITION) return null;
  if (trimmed.startsWith("+")) return projSystem(trimmed);
  if (trimmed.includes("[") || trimmed.startsWith("{")) return null;
  if (isCrs84(trimmed)) return WGS84;
  const code = codeOf(trimmed);
  if (code === null) return null;
  const name = `EPSG:${code}`;
  if (code === 4326) return { ...WGS84, name };
  const geographic = GEOGRAPHIC.get(code);
  if (geographic !== undefined) return { name, ...geographic, toLonLat: null, isGeographic: true, area: null };
  if (WEB_MERCATOR_CODES.has(code)) {
    return systemOfDefinition(
      { name, title: "WGS 84 / Pseudo-Mercator", datum: WGS84.datum, area: null },
      WEB_MERCATOR,
    );
  }
  return utm(code, name);
}

/** {@link builtInSystem} for callers that have no table: what it does not know is refused. */
export const findBuiltInSystem: FindSystem = (text) => {
  const system = builtInSystem(text);
  if (system === null) throw unknownSystem(text);
  return system;
};

function utm(code: number, name: string): CoordinateSystem | null {
  const make = (zone: number, isSouth: boolean, prefix: string, datum: Datum, figure: string): CoordinateSystem => {
    const title = `${prefix} / UTM zone ${zone}${isSouth ? "S" : "N"}`;
    const definition = `+proj=utm +zone=${zone}${isSouth ? " +south" : ""} ${figure} +units=m +no_defs`;
    return systemOfDefinition({ name, title, datum, area: null }, definition);
  };
  const world = "+datum=WGS84";
  const grs80 = "+ellps=GRS80 +towgs84=0,0,0";
  if (code > 32600 && code <= 32660) return make(code - 32600, false, "WGS 84", WGS84.datum, world);
  if (code > 32700 && code <= 32760) return make(code - 32700, true, "WGS 84", WGS84.datum, world);
  if (code > 26900 && code <= 26923) return make(code - 26900, false, "NAD83", NAD83, grs80);
  if (code >= 25828 && code <= 25838) return make(code - 25800, false, "ETRS89", ETRS89, grs80);
  return null;
}
