import type { Builder } from "flatbuffers";
import { joinBytes } from "../join-bytes.ts";
import { boxOf, hasZ, joinBoxes } from "./geometry-box.ts";
import type { CellValue, ColumnType, LayerTable } from "./layer-table.ts";

/** "fgb", major version 3, "fgb", patch version 0. */
const MAGIC = Uint8Array.of(0x66, 0x67, 0x62, 3, 0x66, 0x67, 0x62, 0);

/**
 * A table with geometry as FlatGeobuf, EPSG:4326 (longitude first). Features keep their order and may lack geometry, so there is no spatial
 * index: the format's index sorts features and has no place for those. Throws RangeError for a table without geometry.
 */
export async function writeFlatGeobuf(table: LayerTable): Promise<Uint8Array> {
  if (table.geometryType === null) throw new RangeError(`Expected a table with geometry, got ${table.name}`);
  const library = await load();
  const types = table.columns.map(({ type }) => library.columnTypes[type]);
  const pieces = [MAGIC, header(library, table, types)];
  for (let row = 0; row < table.rowCount; row += 1) pieces.push(feature(library, table, row));
  return joinBytes(pieces);
}

type Library = Awaited<ReturnType<typeof load>>;

async function load() {
  const [
    { Builder },
    { Header },
    { Column },
    { Crs },
    { Feature },
    { ColumnType },
    { GeometryType },
    generic,
    geojson,
  ] = await Promise.all([
    import("flatbuffers"),
    import("flatgeobuf/lib/mjs/flat-geobuf/header.js"),
    import("flatgeobuf/lib/mjs/flat-geobuf/column.js"),
    import("flatgeobuf/lib/mjs/flat-geobuf/crs.js"),
    import("flatgeobuf/lib/mjs/flat-geobuf/feature.js"),
    import("flatgeobuf/lib/mjs/flat-geobuf/column-type.js"),
    import("flatgeobuf/lib/mjs/flat-geobuf/geometry-type.js"),
    import("flatgeobuf/lib/mjs/generic/geometry.js"),
    import("flatgeobuf/lib/mjs/geojson/geometry.js"),
  ]);
  const columnTypes: Readonly<Record<ColumnType, number>> = {
    text: ColumnType.String,
    integer: ColumnType.Long,
    real: ColumnType.Double,
    boolean: ColumnType.Bool,
    date: ColumnType.DateTime,
  };
  const { buildGeometry } = generic;
  const { parseGeometry, parseGC } = geojson;
  return { Builder, Header, Column, Crs, Feature, GeometryType, columnTypes, buildGeometry, parseGeometry, parseGC };
}

function header(library: Library, table: LayerTable, types: readonly number[]): Uint8Array {
  const { Builder, Header, Column, Crs, GeometryType } = library;
  const builder: Builder = new Builder();
  const columns = table.columns.map(({ name, meaning }, at) => {
    const nameAt = builder.createString(name);
    const meaningAt = meaning === null ? 0 : builder.createString(meaning);
    Column.startColumn(builder);
    Column.addName(builder, nameAt);
    Column.addType(builder, types[at]!);
    if (meaning !== null) Column.addDescription(builder, meaningAt);
    return Column.endColumn(builder);
  });
  const columnsAt = Header.createColumnsVector(builder, columns);
  const nameAt = builder.createString(table.name);
  const meaningAt = builder.createString(table.meaning);
  const organizationAt = builder.createString("EPSG");
  Crs.startCrs(builder);
  Crs.addOrg(builder, organizationAt);
  Crs.addCode(builder, 4326);
  const crsAt = Crs.endCrs(builder);
  const present = table.geometries.filter((geometry) => geometry !== null);
  const box = joinBoxes(present.map(boxOf));
  const boxAt = box === null ? 0 : Header.createEnvelopeVector(builder, box);
  Header.startHeader(builder);
  Header.addName(builder, nameAt);
  if (box !== null) Header.addEnvelope(builder, boxAt);
  const { geometryType } = table;
  Header.addGeometryType(
    builder,
    geometryType === null || geometryType === "Geometry" ? GeometryType.Unknown : GeometryType[geometryType],
  );
  Header.addHasZ(builder, present.length > 0 && present.every(hasZ));
  Header.addColumns(builder, columnsAt);
  Header.addFeaturesCount(builder, BigInt(table.rowCount));
  Header.addIndexNodeSize(builder, 0);
  Header.addCrs(builder, crsAt);
  Header.addDescription(builder, meaningAt);
  builder.finishSizePrefixed(Header.endHeader(builder));
  return builder.asUint8Array();
}

function feature(library: Library, { columns, geometries }: LayerTable, row: number): Uint8Array {
  const { Builder, Feature, buildGeometry, parseGeometry, parseGC } = library;
  const builder: Builder = new Builder();
  const properties = new PropertyBytes();
  columns.forEach(({ type, values }, at) => {
    const value = values[row] ?? null;
    if (value !== null) properties.add(at, type, value);
  });
  const bytes = properties.done();
  const propertiesAt = bytes.length === 0 ? 0 : Feature.createPropertiesVector(builder, bytes);
  const geometry = geometries[row] ?? null;
  const geometryAt =
    geometry === null
      ? 0
      : buildGeometry(builder, geometry.type === "GeometryCollection" ? parseGC(geometry) : parseGeometry(geometry));
  Feature.startFeature(builder);
  if (geometry !== null) Feature.addGeometry(builder, geometryAt);
  if (bytes.length > 0) Feature.addProperties(builder, propertiesAt);
  builder.finishSizePrefixed(Feature.endFeature(builder));
  return builder.asUint8Array();
}

/** The format's own encoding of a feature's values: column number in two bytes, then the value; nulls are left out. */
class PropertyBytes {
  readonly #encoder = new TextEncoder();
  #bytes = new Uint8Array(1024);
  #view = new DataView(this.#bytes.buffer);
  #length = 0;

  add(column: number, type: ColumnType, value: NonNullable<CellValue>): void {
    const text = type === "text" || type === "date" ? this.#encoder.encode(String(value)) : null;
    this.#grow(10 + (text?.length ?? 0));
    this.#view.setUint16(this.#length, column, true);
    const at = this.#length + 2;
    if (text !== null) {
      this.#view.setUint32(at, text.length, true);
      this.#bytes.set(text, at + 4);
      this.#length = at + 4 + text.length;
    } else if (type === "boolean") {
      this.#bytes[at] = value === true ? 1 : 0;
      this.#length = at + 1;
    } else {
      if (type === "integer") this.#view.setBigInt64(at, BigInt(value), true);
      else this.#view.setFloat64(at, Number(value), true);
      this.#length = at + 8;
    }
  }

  done(): Uint8Array {
    return this.#bytes.slice(0, this.#length);
  }

  #grow(more: number): void {
    if (this.#length + more <= this.#bytes.length) return;
    const larger = new Uint8Array(Math.max(this.#bytes.length * 2, this.#length + more));
    larger.set(this.#bytes);
    this.#bytes = larger;
    this.#view = new DataView(larger.buffer);
  }
}
