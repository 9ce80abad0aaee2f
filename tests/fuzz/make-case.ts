import { FIELDS } from "../../src/core/model/column-map.ts";
import { LAYERS, type Layer } from "../../src/core/model/terms.ts";
import { collection, GOOD } from "../corpus/case-files.ts";
import { DATES, HOSTILE, LENGTHS, NAMES } from "./hostile-values.ts";
import { mutateBytes } from "./mutate-bytes.ts";
import { mutateJson } from "./mutate-json.ts";
import type { Random } from "./random.ts";

/** One thing to throw at the program. `isLocal`: only the odd feature differs from a sound file, so the good ones must come out the same. */
export interface FuzzCase {
  readonly kind: "bytes" | "json" | "values" | "columns" | "crs";
  readonly layer: Layer;
  readonly bytes: Uint8Array;
  readonly columns: unknown;
  readonly crs: string | null;
  readonly isLocal: boolean;
}

const encoder = new TextEncoder();
const file = (features: readonly string[]): Uint8Array => encoder.encode(collection(features));

/** The odd feature starts as a good one 800 m away. */
const SEEDS: Readonly<Record<Layer, unknown>> = Object.fromEntries(
  LAYERS.map((layer) => {
    const moved = GOOD[layer][0].replaceAll("-89.4", "-89.41").replaceAll("-89.39", "-89.409").replace("good-1", "odd");
    return [layer, JSON.parse(moved)];
  }),
) as Record<Layer, unknown>;

const CRS_TEXTS = [
  "EPSG:2263",
  "urn:ogc:def:crs:EPSG::27700",
  "+proj=utm +zone=16 +datum=NAD83 +units=us-ft +no_defs",
  'PROJCS["x",GEOGCS["y",DATUM["D_North_American_1983",SPHEROID["GRS_1980",6378137.0,298.257222101]],PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]],PROJECTION["Lambert_Conformal_Conic"],PARAMETER["False_Easting",984250.0],PARAMETER["Central_Meridian",-74.0],PARAMETER["Standard_Parallel_1",41.03],PARAMETER["Standard_Parallel_2",40.67],PARAMETER["Latitude_Of_Origin",40.17],UNIT["Foot_US",0.3048006096]]',
  '{"type":"ProjectedCRS","name":"x","base_crs":{"name":"OSGB36","datum":{"name":"Ordnance Survey of Great Britain 1936","ellipsoid":{"name":"Airy","semi_major_axis":6377563.396,"inverse_flattening":299.32}}},"conversion":{"name":"z","method":{"name":"Transverse Mercator"},"parameters":[{"name":"Latitude of natural origin","value":49,"unit":"degree"}]},"coordinate_system":{"subtype":"Cartesian","axis":[{"name":"E","direction":"east","unit":"metre"},{"name":"N","direction":"north","unit":"metre"}]}}',
];

/** The case of a seed's next numbers: most often an odd feature among good trees. */
export function makeCase(random: Random): FuzzCase {
  const layer: Layer = random(3) > 0 ? "trees" : random.pick(LAYERS);
  const plain = { layer, columns: {}, crs: null, isLocal: false };
  const [first, second] = GOOD[layer];
  switch (random(8)) {
    case 0:
    case 1:
      return {
        ...plain,
        kind: "bytes",
        bytes: mutateBytes(file([first, JSON.stringify(SEEDS[layer]), second]), random),
      };
    case 2:
    case 3: {
      const odd = JSON.stringify(mutateJson(SEEDS[layer], random)) ?? "null";
      return { ...plain, kind: "json", bytes: file([first, odd, second]), isLocal: layer === "trees" };
    }
    case 4: {
      const columns = mutateJson({ [layer]: { [random.pick(FIELDS[layer])]: columnOf(random) } }, random);
      return { ...plain, kind: "columns", bytes: file([first, JSON.stringify(SEEDS[layer]), second]), columns };
    }
    case 5: {
      const text = new TextDecoder().decode(mutateBytes(encoder.encode(random.pick(CRS_TEXTS)), random));
      return { ...plain, kind: "crs", bytes: file([first, second]), crs: text };
    }
    default: {
      const odd = SEEDS[layer] as { properties: object };
      const properties = { ...odd.properties, ...valuesFor(layer, random) };
      const bytes = file([first, JSON.stringify({ ...odd, properties }), second]);
      return { ...plain, kind: "values", bytes, isLocal: layer === "trees" };
    }
  }
}

function columnOf(random: Random): unknown {
  const column = random.pick(["dbh", "height", "species", "x", "", "__proto__", "crown_spread"]);
  if (random(3) === 0) return column;
  return {
    column,
    ...(random(2) === 0 ? { unit: random.pick(["m", "cm", "ft", "in", "percent", "V", "furlong"]) } : {}),
    ...(random(3) === 0 ? { zero: random.pick(["value", "unknown", "never"]) } : {}),
    ...(random(3) === 0 ? { values: { "30": random.pick(["40", "N/A", "__proto__"]), constructor: "x" } } : {}),
  };
}

/** Map tags that are read beside the canonical fields. */
const TAGS = [
  ...[
    "layer",
    "location",
    "building:levels",
    "building:height",
    "highway",
    "maxspeed",
    "width",
    "lanes",
    "oneway",
    "power",
  ],
  ...[
    "bridge",
    "tunnel",
    "sidewalk",
    "cycleway",
    "bicycle",
    "junction",
    "traffic_sign",
    "direction",
    "height",
    "ref",
    "indoor",
  ],
];

/** Odd values for one to four fields of a layer. */
function valuesFor(layer: Layer, random: Random): object {
  const values = new Map<string, unknown>();
  for (let times = 1 + random(4); times > 0; times -= 1) {
    const fields = random(4) === 0 ? TAGS : FIELDS[layer];
    values.set(random.pick(fields), random.pick(random.pick([HOSTILE, LENGTHS, DATES, NAMES])));
  }
  return Object.fromEntries(values);
}
