import proj4 from "proj4";

/** A coordinate reference system that GeoJSON coordinates can come in. */
export interface CoordinateSystem {
  /** For example `EPSG:26910`, `OGC:CRS84` or the proj4 text itself. */
  readonly name: string;
  /** Longitude and latitude in degrees of an easting and northing; null where coordinates are longitude and latitude already. */
  readonly toLonLat: ((x: number, y: number) => [number, number]) | null;
}

/** RFC 7946 section 4: longitude and latitude on WGS 84. */
export const WGS84: CoordinateSystem = { name: "OGC:CRS84", toLonLat: null };

/**
 * Geographic systems taken as they are: WGS 84, and NAD83, ETRS89, GDA94 and NAD83(CSRS), whose difference from WGS 84 is up to about
 * two meters and the same for every layer in them.
 */
const GEOGRAPHIC_CODES: ReadonlySet<number> = new Set([4326, 4269, 4258, 4283, 4617]);
const WEB_MERCATOR_CODES: ReadonlySet<number> = new Set([3857, 3785, 900913, 102100, 102113]);
const WEB_MERCATOR =
  "+proj=merc +a=6378137 +b=6378137 +lat_ts=0 +lon_0=0 +x_0=0 +y_0=0 +k=1 +units=m +nadgrids=@null +no_defs";
const MAX_NAME = 1000;

/**
 * The system of a name: `EPSG:n`, an OGC URN or address ending in the code, `OGC:CRS84`, or a proj4 text beginning with `+proj=`.
 *
 * Known codes: WGS 84 and the geographic systems above, web Mercator, UTM on WGS 84 (326xx, 327xx), NAD83 (26901-26923) and ETRS89
 * (25828-25838). Nothing is looked up. Throws RangeError for every other name, with what to give instead.
 */
export function coordinateSystem(name: string): CoordinateSystem {
  const text = name.trim();
  if (text.length > MAX_NAME) throw unknown(text);
  if (text.startsWith("+proj=")) return projected(text, text);
  const upper = text.toUpperCase();
  if (upper.endsWith("CRS84") || upper.endsWith("CRS84H") || upper === "WGS84") return WGS84;
  const code = epsgCode(upper);
  if (code === null) throw unknown(text);
  const label = `EPSG:${code}`;
  if (GEOGRAPHIC_CODES.has(code)) return { name: label, toLonLat: null };
  const definition = proj4Text(code);
  if (definition === null) throw unknown(label);
  return projected(label, definition);
}

function proj4Text(code: number): string | null {
  if (WEB_MERCATOR_CODES.has(code)) return WEB_MERCATOR;
  if (code > 32600 && code <= 32660) return `+proj=utm +zone=${code - 32600} +datum=WGS84 +units=m +no_defs`;
  if (code > 32700 && code <= 32760) return `+proj=utm +zone=${code - 32700} +south +datum=WGS84 +units=m +no_defs`;
  if (code > 26900 && code <= 26923) return `+proj=utm +zone=${code - 26900} +datum=NAD83 +units=m +no_defs`;
  if (code >= 25828 && code <= 25838) {
    return `+proj=utm +zone=${code - 25800} +ellps=GRS80 +towgs84=0,0,0,0,0,0,0 +units=m +no_defs`;
  }
  return null;
}

function projected(name: string, definition: string): CoordinateSystem {
  let forward: (position: [number, number]) => [number, number];
  try {
    forward = proj4(definition, "+proj=longlat +datum=WGS84 +no_defs").forward;
  } catch {
    throw unknown(name);
  }
  if (definition.includes("+proj=longlat")) return { name, toLonLat: null };
  return { name, toLonLat: (x, y) => forward([x, y]) };
}

/** The number at the end of a name that speaks of EPSG, such as `EPSG:26910` or `URN:OGC:DEF:CRS:EPSG::26910`; null without one. */
function epsgCode(upper: string): number | null {
  if (!upper.includes("EPSG")) return null;
  let start = upper.length;
  while (start > 0 && upper.charCodeAt(start - 1) >= 48 && upper.charCodeAt(start - 1) <= 57) start -= 1;
  const digits = upper.slice(start);
  return digits.length > 0 && digits.length <= 7 ? Number(digits) : null;
}

const unknown = (name: string): RangeError =>
  new RangeError(
    `Unknown coordinate system "${name.slice(0, 80)}". Known: EPSG:4326, EPSG:3857 and the UTM zones (EPSG:326xx, 327xx, 269xx, 258xx). ` +
      'For another, give its proj4 text ("+proj=lcc ..."), or save the file in longitude and latitude.',
  );
