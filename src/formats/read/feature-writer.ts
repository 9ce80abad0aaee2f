import type { Geometry } from "geojson";
import { withThousands } from "../../core/units/with-thousands.ts";
import { type FeatureFault, featureFault, shortText } from "../geojson/feature-fault.ts";
import type { ReadGeometry } from "./geometry/geometry-fault.ts";
import { GrowingBytes } from "./growing-bytes.ts";
import { jsonValue } from "./json-value.ts";
import type { Limits } from "./limits.ts";
import { pastLimit } from "./unreadable-file.ts";

/** Bytes of a feature beside its properties: the members around them and a point with 15 digits. */
const FEATURE_BYTES = 120;
/** How much longer values are as JSON: quotes, nulls and commas. */
const VALUE_GROWTH = 1.5;
/** Room made on a guess; more is made when it is needed. */
const MOST_EXPECTED_BYTES = 1_000_000_000;

/** Writes the rows of a table as GeoJSON, one feature a line, counting what the limits bound. */
export class FeatureWriter {
  readonly rowFaults = new Map<number, FeatureFault>();
  /** Rows written. */
  rows = 0;
  /** Whether a measure (M) was left out of a geometry, which GeoJSON has no place for. */
  droppedMeasures = false;
  readonly #limits: Limits;
  readonly #keys: readonly string[];
  readonly #written: GrowingBytes;
  #vertices = 0;

  /**
   * `columns` are the names of the properties, each unique; `crs` is the name of the coordinate system, null for longitude and latitude. `expected` is what the source
   * has, so that room for the whole is made at once; a wrong guess costs only memory.
   */
  constructor(
    columns: readonly string[],
    crs: string | null,
    limits: Limits,
    expected: { readonly rows: number; readonly valueBytes: number } = { rows: 0, valueBytes: 0 },
  ) {
    if (columns.length > limits.columns) {
      throw pastLimit(
        `${withThousands(columns.length)} columns`,
        limits.columns,
        "Leave columns out, or turn the table.",
      );
    }
    this.#limits = limits;
    this.#keys = columns.map((name, index) => `${index === 0 ? "" : ","}${JSON.stringify(name)}:`);
    const member = crs === null ? "" : `"crs":{"type":"name","properties":{"name":${JSON.stringify(crs)}}},`;
    const rowBytes = this.#keys.reduce((sum, key) => sum + key.length, FEATURE_BYTES);
    const expectedBytes = expected.rows * rowBytes + expected.valueBytes * VALUE_GROWTH;
    this.#written = new GrowingBytes(Math.min(expectedBytes, limits.fileBytes, MOST_EXPECTED_BYTES));
    this.#written.text(`{"type":"FeatureCollection",${member}"features":[\n`);
  }

  /** Adds a row: values in the order of the columns (left-out ones are undefined), and its geometry or why it has none. */
  add(values: readonly unknown[], read: ReadGeometry, id: string | number | null = null): void {
    if (this.rows >= this.#limits.rows) {
      throw pastLimit(`more than ${withThousands(this.#limits.rows)} rows`, this.#limits.rows, "Split the file.");
    }
    let fault = "fault" in read ? read.fault : null;
    let properties = "";
    for (let index = 0; index < this.#keys.length; index += 1) {
      const value = values[index];
      if (value === undefined) continue;
      fault ??= this.#longText(value);
      properties += (properties === "" ? withoutComma(this.#keys[index]!) : this.#keys[index]!) + this.#json(value);
    }
    const geometry = fault === null && "geometry" in read ? this.#geometry(read) : "null";
    if (fault !== null) this.rowFaults.set(this.rows, fault);
    const member = id === null ? "" : `"id":${JSON.stringify(id)},`;
    const text = `${this.rows === 0 ? "" : ",\n"}{"type":"Feature",${member}"properties":{${properties}},"geometry":${geometry}}`;
    this.#written.text(text);
    this.rows += 1;
    this.#refuseTooLarge();
  }

  /** The whole collection; nothing may be added afterwards. */
  end(): Uint8Array {
    this.#written.text("\n]}\n");
    this.#refuseTooLarge();
    return this.#written.end();
  }

  #refuseTooLarge(): void {
    if (this.#written.length <= this.#limits.fileBytes) return;
    throw pastLimit(
      `more than ${withThousands(this.#limits.fileBytes)} bytes as GeoJSON`,
      this.#limits.fileBytes,
      "Split the file.",
    );
  }

  #json(value: unknown): string {
    try {
      return jsonValue(value, this.#limits.depth);
    } catch {
      throw pastLimit(`a value nested more than ${this.#limits.depth} deep`, this.#limits.depth, "Flatten the column.");
    }
  }

  #longText(value: unknown): FeatureFault | null {
    if (typeof value !== "string" || value.length <= this.#limits.textLength) return null;
    return featureFault(
      "text-too-long",
      null,
      shortText(value),
      `A text of the row has ${withThousands(value.length)} characters; at most ${withThousands(this.#limits.textLength)} are used.`,
      "Shorten it.",
    );
  }

  #geometry(read: { geometry: Geometry; vertices: number; hadMeasures?: boolean }): string {
    this.#vertices += read.vertices;
    if (read.hadMeasures === true) this.droppedMeasures = true;
    if (this.#vertices > this.#limits.vertices) {
      throw pastLimit(
        `more than ${withThousands(this.#limits.vertices)} vertices`,
        this.#limits.vertices,
        "Split the file.",
      );
    }
    return JSON.stringify(read.geometry);
  }
}

const withoutComma = (key: string): string => (key.startsWith(",") ? key.slice(1) : key);
