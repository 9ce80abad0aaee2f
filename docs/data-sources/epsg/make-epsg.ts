/**
 * Writes `src/formats/crs/epsg-definitions.json` from the npm package epsg-index and from `helmert.csv` beside this file.
 * Run from the repository's root: `node --import tsx docs/data-sources/epsg/make-epsg.ts`. What is kept, and why, is in the README here.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import proj4 from "proj4";

const TARGET = "src/formats/crs/epsg-definitions.json";
const HELMERT = "docs/data-sources/epsg/helmert.csv";
const ESRI_CODES = "docs/data-sources/epsg/esri-codes.csv";
const ESRI_DATUMS = "docs/data-sources/epsg/esri-datums.csv";

interface Entry {
  readonly code: string;
  readonly kind: string;
  readonly name: string;
  readonly wkt: string | null;
  readonly proj4: string | null;
  /** North, west, south, east. */
  readonly bbox: readonly [number, number, number, number] | null;
}

interface Shift {
  readonly names: readonly string[];
  readonly operation: string;
  readonly accuracyM: number;
  readonly towgs84: readonly number[];
  readonly area: readonly number[];
}

/** Parameters that say the datum; the others say the projection. */
const DATUM_KEYS = new Set(["ellps", "a", "b", "rf", "f", "R", "datum", "towgs84", "nadgrids", "pm"]);
/** Parameters that say nothing here: heights, and marks of the format. */
const DROPPED = new Set(["no_defs", "type", "wktext", "vunits", "vto_meter", "geoidgrids"]);
/** Ellipsoids of the datums that follow the whole earth and lie within a meter or two of WGS 84. */
const WORLD_ELLIPSOIDS = new Set(["GRS80", "WGS84", "GSK2011"]);
/** Shifts below this between datums on such ellipsoids are left out, so that layers in sister datums of one country stay together. */
const SISTER_M = 3;
/** Half axes of figures of the earth, county systems raised to the ground included, lie between these; other planets' do not. */
const EARTH_M = [6_370_000, 6_390_000] as const;

const entries = Object.values(createRequire(import.meta.url)("epsg-index/all.json") as Record<string, Entry>);
const shifts = readShifts();

const datums = new Map<string, number>();
const lines: string[] = [];
const left = new Map<string, number>();
for (const entry of [...entries].sort((a, b) => Number(a.code) - Number(b.code))) {
  const line = lineOf(entry);
  if (line.startsWith("!")) left.set(line, (left.get(line) ?? 0) + 1);
  else lines.push(line);
}
const table = {
  source:
    "EPSG dataset and ESRI codes as in epsg-index 2.0.0 (ISC licence); shifts without grid files from the EPSG dataset v10.076. See docs/data-sources/epsg.",
  datums: [...datums.keys()],
  esriDatums: esriDatums(),
  esriCodes: esriCodes(),
  systems: lines,
};
writeFileSync(TARGET, `${JSON.stringify(table, null, 2)}\n`);
process.stdout.write(`${lines.length} systems, ${datums.size} datums\n`);
for (const [reason, count] of left) process.stdout.write(`${reason.slice(1)}: ${count}\n`);

/** One system as `code|name|projection|datum|west south east north`, or `!` and why it is left out. */
function lineOf(entry: Entry): string {
  if (!/^CRS-(PROJCRS|GEOGCRS|COMPOUNDCRS)$/.test(entry.kind)) return `!kind ${entry.kind}`;
  if (entry.proj4 === null || entry.proj4 === "") return "!no proj4 text";
  const parameters = new Map(
    [...entry.proj4.matchAll(/\+(\w+)(?:=("[^"]*"|\S+))?/g)].map(([, key, value]) => [key!, value ?? null] as const),
  );
  for (const key of DROPPED) parameters.delete(key);
  if (parameters.has("axis")) return "!axes toward west or south";
  if (parameters.get("proj") === "geocent") return "!geocentric";
  const datum = datumOf(entry, parameters);
  if (datum === null) return "!a sphere or another planet";
  const projection = [...parameters]
    .filter(([key]) => !DATUM_KEYS.has(key))
    .map(([key, value]) => (key === "proj" ? value : value === null ? key : `${key}=${value}`))
    .join(" ");
  if (!isUsable(projection, datum)) return `!projection ${parameters.get("proj")} not known to proj4`;
  let at = datums.get(datum);
  if (at === undefined) {
    at = datums.size;
    datums.set(datum, at);
  }
  const bounds = entry.bbox === null ? "" : [entry.bbox[1], entry.bbox[2], entry.bbox[3], entry.bbox[0]].join(" ");
  return [entry.code, entry.name.replaceAll("|", "/"), projection, at, bounds].join("|");
}

/** A datum as `name|proj4 text|kind|possible error in meters|source`; null for one that is no earth's. */
function datumOf(entry: Entry, parameters: Map<string, string | null>): string | null {
  const name = datumName(entry);
  const ellps = parameters.get("ellps") ?? null;
  const shape = ["ellps", "a", "b", "rf", "f", "R", "pm"]
    .filter((key) => parameters.has(key))
    .map((key) => `${key}=${parameters.get(key)}`)
    .join(" ");
  const own = parameters.get("datum") ?? null;
  const grids = parameters.get("nadgrids") ?? null;
  const towgs84 = parameters.get("towgs84")?.split(",").map(Number) ?? null;
  if (grids === "@null") return `${name}|${shape} nadgrids=@null|exact||`;
  const axisM = Number(parameters.get("a") ?? EARTH_M[0]);
  if (axisM < EARTH_M[0] || axisM > EARTH_M[1]) return null;
  if (/sphere/i.test(name) || parameters.has("R") || ellps === "sphere") return null;
  if (own === "WGS84" || /^(WGS|World_Geodetic_System)_(19)?84$/.test(name))
    return `${name}|ellps=WGS84 towgs84=0,0,0|exact||`;
  if (own === "NAD83") return `${name}|ellps=GRS80 towgs84=0,0,0|same||`;
  const isWorld = WORLD_ELLIPSOIDS.has(ellps ?? "") && grids === null;
  const isNear = isWorld && Math.hypot(...(towgs84 ?? []).slice(0, 3)) < SISTER_M;
  const isShifted = towgs84?.some((value) => value !== 0) === true;
  // Israel's intermediate datum of 2005 is no world datum in spite of its ellipsoid: PROJ shifts it by 78 m.
  const isFar = isShifted && !isNear;
  if (isWorld && !isFar && !/^IG05/.test(name)) return `${name}|${shape} towgs84=0,0,0|same||`;
  const shift = bestShift(name, entry);
  const form = own === "NAD27" ? "ellps=clrk66" : shape;
  if (shift !== null) {
    return `${name}|${form} towgs84=${trimmed(shift.towgs84)}|shifted|${shift.accuracyM}|EPSG:${shift.operation}`;
  }
  // epsg-index gives the rotations of many shifts in another unit or with the other sign; its plain translations are
  // taken where nothing better is published, without its figure for their accuracy: PROJ's shifts differ from some by 100 m.
  if (isFar && towgs84!.slice(3).every((value) => value === 0)) {
    return `${name}|${form} towgs84=${trimmed(towgs84!)}|shifted||epsg-index`;
  }
  // County systems on an ellipsoid blown up to the ground keep the longitudes and latitudes of NAD83.
  if (/HARN_Adj/.test(name)) return `${name}|${form}|same||`;
  return `${name}|${form}|unknown||`;
}

function datumName(entry: Entry): string {
  const named = entry.wkt === null ? null : /DATUM\["([^"]+)"/.exec(entry.wkt);
  const name = named?.[1] ?? entry.name.split(" / ")[0]!.replace(/ \([^)]*\)$/, "");
  return name.replaceAll(" ", "_").replaceAll("|", "/");
}

/**
 * The most accurate shift whose area holds nine tenths of the system's area of use, else the one that holds most of it and at least half;
 * where that area is not told, the shift for the widest area. Of equals the first; null when none fits.
 */
function bestShift(name: string, { bbox }: Entry): Shift | null {
  const known = shifts.filter(({ names }) => names.includes(plain(name)));
  if (bbox === null) return bestBy(known, ({ area }) => size(area));
  const [north, west, south, east] = bbox[1] > bbox[3] ? [bbox[0], bbox[1], bbox[2], bbox[3] + 360] : bbox;
  const share = ({ area: [s, w, n, e] }: Shift): number => {
    const common = [Math.max(south, s!), Math.max(west, w!), Math.min(north, n!), Math.min(east, e!)];
    return size(common) / size([south, west, north, east]);
  };
  const holding = known.filter((one) => share(one) >= 0.9);
  if (holding.length > 0) return bestBy(holding, ({ accuracyM }) => -accuracyM);
  return bestBy(
    known.filter((one) => share(one) >= 0.5),
    share,
  );
}

/** The one with the largest figure, of equals the first; null of none. */
function bestBy(all: readonly Shift[], figure: (one: Shift) => number): Shift | null {
  return all.reduce<Shift | null>((best, one) => (best === null || figure(one) > figure(best) ? one : best), null);
}

/** South, west, north and east with an east that is never less than the west: 190 for 170 W where the antimeridian is crossed. */
function eastward([south, west, north, east]: readonly number[]): number[] {
  return [south!, west!, north!, east! < west! ? east! + 360 : east!];
}

/** Square degrees between south, west, north and east; 0 for nothing in common. */
function size([south, west, north, east]: readonly number[]): number {
  return Math.max(0, north! - south!) * Math.max(0, east! - west!);
}

/** A name without case and marks. */
function plain(name: string): string {
  return name.toLowerCase().replace(/[^a-z0-9+]/g, "");
}

function readShifts(): Shift[] {
  const [, ...rows] = readFileSync(HELMERT, "utf8").trim().split(/\r?\n/);
  return rows.map((row) => {
    const cells = splitRow(row);
    const numbers = cells.slice(3).map(Number);
    const system = cells[1]!.replace(/ \([^)]*\)$/, "").replaceAll(" ", "_");
    return {
      names: [plain(cells[0]!), plain(system)],
      operation: cells[2]!,
      accuracyM: numbers[0]!,
      towgs84: numbers.slice(1, 8),
      area: eastward(numbers.slice(8, 12)),
    };
  });
}

/** ESRI's names of datums as `name|datum`, for those that the table has under another name. */
function esriDatums(): string[] {
  const [, ...rows] = readFileSync(ESRI_DATUMS, "utf8").trim().split(/\r?\n/);
  const names = [...datums.keys()].map((datum) => plain(datum.split("|")[0]!));
  return rows.flatMap((row) => {
    const [esri = "", datum = ""] = splitRow(row);
    const at = names.indexOf(plain(datum.replace(/_ensemble$/, "")));
    const ownName = plain(esri.replace(/^D_/, ""));
    return at === -1 || names.includes(ownName) ? [] : [`${ownName}|${at}`];
  });
}

/** ESRI's numbers as `number|EPSG code`, for those that the table knows under the EPSG code only. */
function esriCodes(): string[] {
  const known = new Set(lines.map((line) => line.split("|")[0]!));
  const [, ...rows] = readFileSync(ESRI_CODES, "utf8").trim().split(/\r?\n/);
  return rows.flatMap((row) => {
    const [esri = "", epsg = ""] = splitRow(row);
    return known.has(esri) || !known.has(epsg) ? [] : [`${esri}|${epsg}`];
  });
}

function splitRow(row: string): string[] {
  const cells = [""];
  let isQuoted = false;
  for (const letter of row) {
    if (letter === '"') isQuoted = !isQuoted;
    else if (letter === "," && !isQuoted) cells.push("");
    else cells[cells.length - 1] += letter;
  }
  return cells;
}

function trimmed(values: readonly number[]): string {
  return (values.slice(3).every((value) => value === 0) ? values.slice(0, 3) : values).join(",");
}

function isUsable(projection: string, datum: string): boolean {
  try {
    const text = `+proj=${projection} ${datum.split("|")[1]!}`.replaceAll(" ", " +").replaceAll("++", "+");
    proj4(text, "+proj=longlat +datum=WGS84 +no_defs");
    return true;
  } catch {
    return false;
  }
}
