import { JsonScanner, JsonShapeError } from "../json/json-scanner.ts";
import { isKey } from "../json/key-text.ts";
import type { FeatureRanges } from "./geojson-read.ts";

/** A document cut at its features; the values inside are unread. */
export type SplitDocument =
  | {
      readonly kind: "object";
      readonly root: FeatureRanges;
      readonly lists: readonly FeatureList[];
      readonly depth: number;
    }
  | { readonly kind: "sequence"; readonly items: FeatureRanges }
  /** The text is not an object: no GeoJSON, whether or not it is JSON. */
  | { readonly kind: "other" };

/** One `features` array of the root object. `open` and `close` are the offsets just behind `[` and of `]`. */
export interface FeatureList {
  readonly open: number;
  readonly close: number;
  readonly items: FeatureRanges;
}

const RECORD_SEPARATOR = 0x1e;
const OPEN_BRACE = 0x7b;
const OPEN_BRACKET = 0x5b;

/**
 * The places of a document's features. Linear in the bytes; throws JsonShapeError where the text between the values is not JSON.
 * The values themselves are only skipped: a caller must parse each of them, and the root with its `features` emptied.
 */
export function splitFeatures(bytes: Uint8Array, start: number): SplitDocument {
  const scanner = new JsonScanner(bytes, start);
  scanner.skipBlanks();
  if (scanner.peek() === RECORD_SEPARATOR) return splitSequence(bytes, start);
  if (scanner.peek() !== OPEN_BRACE) return { kind: "other" };

  const lists: FeatureList[] = [];
  const root = new RangeRecorder();
  root.addObject(scanner, (keyStart, keyEnd) => {
    if (scanner.peek() !== OPEN_BRACKET || !isKey(bytes, keyStart, keyEnd, "features")) return false;
    const open = scanner.at + 1;
    const items = new RangeRecorder();
    scanner.walkArray(() => items.addValue(scanner));
    lists.push({ open, close: scanner.at - 1, items: items.ranges() });
    scanner.deepest = 0;
    return true;
  });
  const rootEnd = scanner.at;
  scanner.skipBlanks();
  if (scanner.at >= bytes.length) {
    const ranges = root.ranges();
    return { kind: "object", root: ranges, lists, depth: ranges.depth[0]! };
  }
  if (!isSeparator(bytes, rootEnd, scanner.at + 1)) throw new JsonShapeError(scanner.at);
  return splitSequence(bytes, start);
}

/** Values one after another, each on lines of its own or behind a record separator (RFC 8142 section 2). */
function splitSequence(bytes: Uint8Array, start: number): SplitDocument {
  const scanner = new JsonScanner(bytes, start);
  const items = new RangeRecorder();
  let previousEnd = -1;
  for (;;) {
    scanner.skipBlanks();
    while (scanner.peek() === RECORD_SEPARATOR) {
      scanner.at += 1;
      scanner.skipBlanks();
    }
    if (scanner.at >= bytes.length) break;
    if (previousEnd >= 0 && !isSeparator(bytes, previousEnd, scanner.at)) throw new JsonShapeError(scanner.at);
    items.addValue(scanner);
    previousEnd = scanner.at;
  }
  return { kind: "sequence", items: items.ranges() };
}

function isSeparator(bytes: Uint8Array, start: number, end: number): boolean {
  for (let at = start; at < end; at += 1) {
    const byte = bytes[at]!;
    if (byte === 0x0a || byte === 0x0d || byte === RECORD_SEPARATOR) return true;
  }
  return false;
}

/** Figures kept of each value, in the order of {@link FeatureRanges}. */
const COLUMNS = 9;

class RangeRecorder {
  #columns: Float64Array[] = Array.from({ length: COLUMNS }, () => new Float64Array(64));
  #count = 0;

  /** Records the value at the scanner, an object or not, and moves past it. */
  addValue(scanner: JsonScanner): void {
    if (scanner.peek() === OPEN_BRACE) {
      this.addObject(scanner, () => false);
      return;
    }
    const start = scanner.at;
    scanner.skipValue();
    this.#add([start, scanner.at, -1, -1, -1, -1, -1, -1, scanner.deepest]);
  }

  /** Records the object at the scanner; `take` may read a member's value itself and then answers true. */
  addObject(scanner: JsonScanner, take: (keyStart: number, keyEnd: number) => boolean): void {
    const { bytes, at: start } = scanner;
    const properties = { start: -1, end: -1 };
    const id = { start: -1, end: -1 };
    const geometry = { start: -1, end: -1 };
    scanner.walkObject((keyStart, keyEnd) => {
      if (take(keyStart, keyEnd)) return;
      const valueStart = scanner.at;
      scanner.skipValue();
      const member = isKey(bytes, keyStart, keyEnd, "properties")
        ? properties
        : isKey(bytes, keyStart, keyEnd, "geometry")
          ? geometry
          : isKey(bytes, keyStart, keyEnd, "id")
            ? id
            : null;
      if (member === null) return;
      member.start = valueStart;
      member.end = scanner.at;
    });
    this.#add([
      start,
      scanner.at,
      properties.start,
      properties.end,
      id.start,
      id.end,
      geometry.start,
      geometry.end,
      scanner.deepest,
    ]);
  }

  ranges(): FeatureRanges {
    const column = (index: number): Float64Array => this.#columns[index]!.subarray(0, this.#count);
    return {
      count: this.#count,
      start: column(0),
      end: column(1),
      propertiesStart: column(2),
      propertiesEnd: column(3),
      idStart: column(4),
      idEnd: column(5),
      geometryStart: column(6),
      geometryEnd: column(7),
      depth: column(8),
    };
  }

  #add(row: readonly number[]): void {
    if (this.#count === this.#columns[0]!.length) this.#columns = this.#columns.map(twiceAsLong);
    for (let index = 0; index < COLUMNS; index += 1) this.#columns[index]![this.#count] = row[index]!;
    this.#count += 1;
  }
}

function twiceAsLong(column: Float64Array): Float64Array {
  const longer = new Float64Array(column.length * 2);
  longer.set(column);
  return longer;
}

/** Ranges of no feature at all. */
export const emptyRanges = (): FeatureRanges => new RangeRecorder().ranges();
