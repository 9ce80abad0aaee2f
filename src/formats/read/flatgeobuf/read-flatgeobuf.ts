import { withThousands } from "../../../core/units/with-thousands.ts";
import { type Converted, doubt, measuresDropped, note, type ReaderInput } from "../converted.ts";
import { FeatureWriter } from "../feature-writer.ts";
import { noGeometry, type ReadGeometry, readGeometrySafely } from "../geometry/geometry-fault.ts";
import { uniqueNames } from "../unique-names.ts";
import { damaged } from "../unreadable-file.ts";
import { fgbGeometry } from "./fgb-geometry.ts";
import { fgbHeader } from "./fgb-header.ts";
import { fgbProperties } from "./fgb-properties.ts";
import { FlatTable } from "./flat-table.ts";

/** Smallest message of a feature: root offset, an empty table and its vtable. */
const MIN_FEATURE_BYTES = 12;

/**
 * A FlatGeobuf file as GeoJSON, in the order of the file. Read in place with every offset checked; the format's own reader rounds whole
 * numbers past 2^53 and trusts the lengths it finds. Throws UnreadableError for a file that is damaged or cut short.
 */
export function readFlatGeobuf({ bytes, limits, time }: ReaderInput): Converted {
  const header = fgbHeader(bytes);
  const { names } = uniqueNames(
    header.columns.map(({ name }) => name),
    header.columns.length,
  );
  const writer = new FeatureWriter(names, header.crs ?? null, limits);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let at = header.featuresAt;
  let hadMeasures = false;
  while (at < view.byteLength) {
    time.step();
    const size = at + 4 > view.byteLength ? 0 : view.getUint32(at, true);
    if (size < MIN_FEATURE_BYTES || at + 4 + size > view.byteLength) {
      throw damaged("FlatGeobuf file", `it ends in feature ${withThousands(writer.rows + 1)}`);
    }
    try {
      const feature = FlatTable.root(bytes.subarray(at + 4, at + 4 + size));
      const values = fgbProperties(feature.bytes(1), header.columns);
      const geometry = readFeatureGeometry(feature.table(0), header.geometryType, size);
      hadMeasures ||= feature.table(0)?.doubles(3) != null;
      writer.add(values, geometry);
    } catch (error) {
      if (error instanceof RangeError)
        throw damaged("FlatGeobuf file", `feature ${withThousands(writer.rows + 1)} is broken`);
      throw error;
    }
    at += 4 + size;
  }
  if (header.features > 0n && header.features !== BigInt(writer.rows)) {
    throw damaged("FlatGeobuf file", `it has ${withThousands(writer.rows)} features and says ${header.features}`);
  }
  const counts = `${withThousands(writer.rows)} rows, ${withThousands(names.length)} columns`;
  const findings = [note("format-read", `Read as FlatGeobuf: ${counts}.`)];
  if (header.crs === undefined) {
    findings.push(
      doubt(
        "no-crs",
        "The file names no coordinate system; the coordinates were taken for longitude and latitude.",
        "Give --crs EPSG:n if they are not.",
      ),
    );
  }
  if (hadMeasures) findings.push(measuresDropped());
  return { format: "FlatGeobuf", bytes: writer.end(), findings, rowFaults: writer.rowFaults };
}

function readFeatureGeometry(table: FlatTable | null, headerType: number, bytes: number): ReadGeometry {
  if (table === null) return noGeometry();
  return readGeometrySafely(() => {
    const budget = { left: bytes };
    const geometry = fgbGeometry(table, headerType, budget);
    return { geometry, vertices: bytes - budget.left };
  });
}
