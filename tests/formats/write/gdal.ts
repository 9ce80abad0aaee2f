import { spawnSync } from "node:child_process";
import type { Feature, FeatureCollection, Geometry } from "geojson";

/** Why GDAL cannot be asked here; null when it can. */
export const gdalMissing: string | null =
  spawnSync("ogrinfo", ["--version"]).status === 0 && spawnSync("ogr2ogr", ["--version"]).status === 0
    ? null
    : "GDAL's ogrinfo and ogr2ogr are not installed (Debian: gdal-bin)";

/** What `ogrinfo` prints. Throws with its complaint; a warning counts as one. */
export function ogrinfo(...args: string[]): string {
  const ran = spawnSync("ogrinfo", args, { encoding: "utf8", maxBuffer: 1 << 28 });
  if (ran.status !== 0 || ran.stderr !== "") throw new Error(`ogrinfo ${args.join(" ")}: ${ran.stderr}${ran.stdout}`);
  return ran.stdout;
}

/** One layer as `ogrinfo` sums it up. */
export interface LayerSummary {
  readonly geometry: string;
  readonly count: number;
  readonly epsg: string | null;
  /** Field name to its type, for example `Real` or `Integer(Boolean)`. */
  readonly fields: ReadonlyMap<string, string>;
}

export function layerSummary(file: string, layer: string): LayerSummary {
  const text = ogrinfo("-so", file, layer);
  const fields = [...text.matchAll(/^(.+): ([A-Z]\w+(?:\(\w+\))?) \(\d+\.\d+\)/gm)];
  return {
    geometry: /^Geometry: (.+)$/m.exec(text)?.[1] ?? "",
    count: Number(/^Feature Count: (\d+)$/m.exec(text)?.[1]),
    epsg: /ID\["EPSG",(\d+)\]\]\n/.exec(text)?.[1] ?? null,
    fields: new Map(fields.map((match) => [match[1]!, match[2]!])),
  };
}

/** All features of a layer as GDAL reads them, with every digit of their coordinates. */
export function readFeatures(file: string, layer: string, ...options: string[]): Feature<Geometry | null>[] {
  const ran = spawnSync(
    "ogr2ogr",
    ["-f", "GeoJSON", "/vsistdout/", file, layer, "-lco", "COORDINATE_PRECISION=15", ...options],
    { encoding: "utf8", maxBuffer: 1 << 28 },
  );
  // GeoJSON has no dates, which GDAL says of every field of that type; nothing else may be said.
  const complaints = ran.stderr.split("\n").filter((line) => line !== "" && !line.includes("natively support Date"));
  if (ran.status !== 0 || complaints.length > 0) throw new Error(`ogr2ogr ${file}: ${complaints.join(" ")}`);
  return (JSON.parse(ran.stdout) as FeatureCollection<Geometry | null>).features;
}
