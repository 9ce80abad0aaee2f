import type { Layer } from "../../core/model/terms.ts";

/** What a first look at a file says it holds. */
export interface LayerGuess {
  /** Null when neither the name nor the content tells. */
  readonly layer: Layer | null;
  /** What the guess rests on, for the reader. */
  readonly because: "its name" | "what it holds" | null;
}

/** What the beginning of a GeoJSON file shows: how often each geometry type occurs, and the names of members. */
export interface FirstLook {
  readonly points: number;
  readonly lines: number;
  readonly polygons: number;
  /** Member names in lower case. */
  readonly names: ReadonlySet<string>;
}

/** Words in file names, singular, by layer. The first layer with a word wins: `street_trees` are trees, `road_signs` signs. */
const NAME_WORDS: readonly (readonly [Layer, readonly string[]])[] = [
  ["trees", ["tree", "trunk", "inventory", "arbre", "arbol", "baum"]],
  ["signals", ["signal", "trafficlight"]],
  ["signs", ["sign", "signage"]],
  ["conductors", ["conductor", "powerline", "span", "circuit", "feeder", "overhead", "wire", "power", "electric"]],
  [
    "paths",
    [
      "path",
      "sidewalk",
      "walkway",
      "walk",
      "footway",
      "footpath",
      "bikeway",
      "bike",
      "cycleway",
      "trail",
      "pedestrian",
    ],
  ],
  ["buildings", ["building", "bldg", "footprint", "structure", "house", "roof"]],
  ["roads", ["road", "roadway", "street", "centerline", "centreline", "carriageway", "highway", "lane", "pavement"]],
];

/** Column names that only one layer has, by layer. */
const COLUMN_WORDS: Readonly<Record<Layer, readonly string[]>> = {
  trees: ["species", "dbh", "genus", "botanical_name", "common_name", "crown_base", "crown_radius", "leaf_type"],
  buildings: ["building", "building:levels", "levels", "eave_height", "roof_type"],
  roads: ["highway", "lanes", "maxspeed", "speed", "speed_limit", "oneway", "surface", "road_class"],
  paths: ["footway", "bicycle", "cycleway", "sidewalk"],
  signs: ["traffic_sign", "mutcd", "facing", "sign_code", "sign_type"],
  signals: ["traffic_signals", "signal_type"],
  conductors: ["voltage", "kv", "circuit", "span", "attachment_height_1", "sag", "insulation"],
};

/** The layer a file most likely is: by its name, else by its geometry and columns. */
export function guessLayer(fileName: string, look: FirstLook): LayerGuess {
  const byName = layerOfName(fileName);
  if (byName !== null && fits(byName, look)) return { layer: byName, because: "its name" };
  const byContent = layerOfContent(look);
  return byContent === null ? { layer: null, because: null } : { layer: byContent, because: "what it holds" };
}

/** What the beginning of a GeoJSON text shows; a text cut off in the middle is no obstacle. */
export function firstLook(text: string): FirstLook {
  const count = { points: 0, lines: 0, polygons: 0 };
  for (const [, type = ""] of text.matchAll(
    /"type"\s{0,8}:\s{0,8}"(Point|MultiPoint|LineString|MultiLineString|Polygon|MultiPolygon)"/g,
  )) {
    if (type.endsWith("Point")) count.points += 1;
    else if (type.endsWith("LineString")) count.lines += 1;
    else count.polygons += 1;
  }
  const names = new Set<string>();
  for (const [, name = ""] of text.matchAll(/"([A-Za-z_][A-Za-z0-9_:. -]{0,40})"\s{0,8}:/g))
    names.add(name.toLowerCase());
  return { ...count, names };
}

function layerOfName(fileName: string): Layer | null {
  const words = fileName
    .slice(0, 256)
    .replace(/\.[a-z]{1,8}$/i, "")
    .replace(/([a-z])([A-Z])/g, "$1 $2")
    .toLowerCase()
    .split(/[^a-z]+/)
    .map((word) => (word.length > 3 && word.endsWith("s") ? word.slice(0, -1) : word));
  for (const [layer, known] of NAME_WORDS) if (known.some((word) => words.includes(word))) return layer;
  return null;
}

function fits(layer: Layer, look: FirstLook): boolean {
  const { points, lines, polygons } = look;
  if (points + lines + polygons === 0) return true;
  switch (layer) {
    case "trees":
    case "signs":
    case "signals":
      return points > 0;
    case "buildings":
      return polygons > 0;
    default:
      return lines + polygons > 0;
  }
}

function layerOfContent(look: FirstLook): Layer | null {
  let best: Layer | null = null;
  let bestScore = 0;
  for (const [layer, columns] of Object.entries(COLUMN_WORDS) as [Layer, readonly string[]][]) {
    if (look.points + look.lines + look.polygons === 0 || !fits(layer, look)) continue;
    const score = columns.filter((column) => look.names.has(column)).length;
    if (score > bestScore) [best, bestScore] = [layer, score];
  }
  return best;
}
