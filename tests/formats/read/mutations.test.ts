import { unzipSync, zipSync } from "fflate";
import { parquetWriteBuffer } from "hyparquet-writer";
import { describe, expect, it } from "vitest";
import { UnreadableError } from "../../../src/formats/geojson/open-document.ts";
import { toGeoJson } from "../../../src/formats/read/to-geojson.ts";
import { damage, randomFrom } from "./damage.ts";
import { featuresOf, fixture, processorMs } from "./reading.ts";

const RUNS = 2000;
/** Milliseconds of processor time one damaged file of a few kilobytes may take, collecting garbage included. */
const SLOWEST_MS = 2000;

/** A zip whose one part is damaged, so that the damage gets past the zip's own sums. */
function damagedPart(ending: string): (random: (below: number) => number) => Uint8Array {
  const files = unzipSync(fixture("areas.zip"));
  const name = Object.keys(files).find((path) => path.endsWith(ending))!;
  return (random) => zipSync({ ...files, [name]: damage(files[name]!, random) }, { level: 0 });
}

function points(): Uint8Array {
  const wkb = Uint8Array.from([1, 1, 0, 0, 0, ...new Array(16).fill(0)]);
  const geo = {
    version: "1.1.0",
    primary_column: "geom",
    columns: { geom: { encoding: "WKB", geometry_types: ["Point"] } },
  };
  const rows = Array.from({ length: 40 }, (_, at) => at);
  return new Uint8Array(
    parquetWriteBuffer({
      columnData: [
        { name: "id", data: rows.map(BigInt), type: "INT64" },
        { name: "name", data: rows.map((at) => (at % 3 === 0 ? null : `chêne ${at % 5}`)), type: "STRING" },
        { name: "h", data: rows.map((at) => at / 10), type: "DOUBLE" },
        { name: "geom", data: rows.map(() => wkb), type: "BYTE_ARRAY" },
      ],
      kvMetadata: [{ key: "geo", value: JSON.stringify(geo) }],
    }),
  );
}

const whole = (bytes: Uint8Array) => (random: (below: number) => number) => damage(bytes, random);
const CASES: readonly [string, string, (random: (below: number) => number) => Uint8Array][] = [
  ["CSV with well-known text", "a.csv", whole(fixture("areas-wkt.csv"))],
  ["CSV with x and y", "a.csv", whole(fixture("trees-xy.csv"))],
  ["zip", "a.zip", whole(fixture("areas.zip"))],
  [".shp", "a.zip", damagedPart(".shp")],
  [".dbf", "a.zip", damagedPart(".dbf")],
  ["GeoPackage", "a.gpkg", whole(fixture("areas.gpkg"))],
  ["FlatGeobuf", "a.fgb", whole(fixture("areas.fgb"))],
  ["FlatGeobuf with an index", "a.fgb", whole(fixture("areas-feet.fgb"))],
  ["GeoParquet", "a.parquet", whole(points())],
];

describe(`${RUNS} damaged files of each kind, seed 1`, () => {
  it.each(CASES)(
    "%s: read or refused in plain words, never more, never slow",
    { timeout: 240_000 },
    async (_, name, next) => {
      const random = randomFrom(1);
      let [read, refused, slowest] = [0, 0, 0];
      for (let run = 0; run < RUNS; run += 1) {
        const bytes = next(random);
        const start = processorMs();
        try {
          const converted = await toGeoJson(bytes, name);
          const features = featuresOf(converted);
          // Every row without a geometry says why.
          const without = features.flatMap(({ geometry }, at) => (geometry === null ? [at] : []));
          expect(without.filter((at) => !converted.rowFaults.has(at))).toEqual([]);
          read += 1;
        } catch (error) {
          if (!(error instanceof UnreadableError)) throw error;
          expect(error.fault.reason).toMatch(/^[A-Z].*\.$/s);
          refused += 1;
        }
        slowest = Math.max(slowest, processorMs() - start);
      }
      expect(read + refused).toBe(RUNS);
      expect(read).toBeGreaterThan(0);
      expect(slowest).toBeLessThan(SLOWEST_MS);
    },
  );
});
