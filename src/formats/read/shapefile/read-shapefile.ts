import { withThousands } from "../../../core/units/with-thousands.ts";
import type { FeatureFault } from "../../geojson/feature-fault.ts";
import { type Converted, doubt, measuresDropped, note, type ReaderInput } from "../converted.ts";
import { FeatureWriter } from "../feature-writer.ts";
import { noGeometry } from "../geometry/geometry-fault.ts";
import { uniqueNames } from "../unique-names.ts";
import { openDbf } from "./dbf-table.ts";
import { prjSystem } from "./prj-system.ts";
import { shapeReader } from "./shape-reader.ts";

/** The files of a shapefile that are read; the index (.shx) is not needed. */
export interface ShapefileParts {
  readonly shp: Uint8Array;
  readonly dbf: Uint8Array | null;
  readonly prj: Uint8Array | null;
  readonly cpg: Uint8Array | null;
}

/**
 * A shapefile as GeoJSON, coordinates as they stand and the .prj text as their system. Records pair with the rows of the .dbf by their
 * order (ESRI Shapefile Technical Description, 1998); rows marked as deleted are passed over with their shapes, as all programs do.
 */
export function readShapefile(
  parts: ShapefileParts,
  name: string,
  { limits, time }: Pick<ReaderInput, "limits" | "time">,
  before: readonly FeatureFault[],
): Converted {
  const findings: FeatureFault[] = [];
  const shapes = shapeReader(parts.shp);
  const table = parts.dbf === null ? null : openDbf(parts.dbf, parts.cpg);
  const system = prjSystem(parts.prj);
  if (table === null)
    findings.push(
      doubt(
        "no-attributes",
        "The zip has no .dbf file, so the shapes have no attributes.",
        "Zip the .dbf with the .shp.",
      ),
    );
  else findings.push(...table.findings);
  if (system === undefined) {
    findings.push(
      doubt(
        "no-crs",
        "The zip has no .prj file; the coordinates were taken for longitude and latitude.",
        "Zip the .prj with the .shp, or give --crs EPSG:n.",
      ),
    );
  }
  const { names, renamed } = uniqueNames(table?.names ?? [], table?.names.length ?? 0);
  if (renamed.length > 0)
    findings.push(
      doubt(
        "duplicate-column",
        `Several columns have the same name; later ones got a number: ${renamed.join(", ").slice(0, 200)}.`,
        "Give each column its own name.",
      ),
    );
  const expected = { rows: table?.rows ?? 0, valueBytes: (parts.dbf?.length ?? 0) / 2 };
  const writer = new FeatureWriter(names, system ?? null, limits, expected);
  let deleted = 0;
  let index = 0;
  for (; ; index += 1) {
    time.step();
    const shape = shapes.next();
    const row = table?.row(index) ?? null;
    if (shape === null && row === null) break;
    if (row === "deleted") deleted += 1;
    else writer.add(row ?? [], shape ?? noGeometry());
  }
  if (deleted > 0)
    findings.push(
      note("deleted-rows", `${withThousands(deleted)} rows are marked as deleted in the .dbf and are no features.`),
    );
  if (table !== null && table.rows !== shapes.count) {
    const reason = `The .shp holds ${withThousands(shapes.count)} shapes, the .dbf ${withThousands(table.rows)} rows; they were paired in order.`;
    findings.push(doubt("uneven-files", reason, "Export the shapefile anew; its files may be of different days."));
  }
  if (shapes.isCutShort())
    findings.push(
      doubt(
        "damaged",
        "The .shp is cut short or damaged near its end; shapes behind that are missing.",
        "Export it anew.",
      ),
    );
  if (writer.droppedMeasures) findings.push(measuresDropped());
  const counts = `${withThousands(writer.rows)} rows, ${withThousands(names.length)} columns`;
  const encoding = table === null ? "" : `, text in ${table.encoding}`;
  const read = note("format-read", `Read as shapefile (${name.slice(0, 120)}${encoding}): ${counts}.`);
  return {
    format: "Shapefile",
    bytes: writer.end(),
    findings: [...before, read, ...findings],
    rowFaults: writer.rowFaults,
  };
}
