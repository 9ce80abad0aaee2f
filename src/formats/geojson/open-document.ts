import { findJsonFault } from "../json/find-json-fault.ts";
import { JsonScanner } from "../json/json-scanner.ts";
import { ownMember } from "../json/own-member.ts";
import { byteOrderMarkLength, findUtf8Fault, placeInText, utf8Text } from "../json/utf8-text.ts";
import { type CollectionFrame, plainFrame } from "./collection-frame.ts";
import { type FeatureFault, featureFault, shortText } from "./feature-fault.ts";
import type { FeatureRanges, GeoJsonForm } from "./geojson-read.ts";
import { MAX_DEPTH } from "./read-feature.ts";
import { type FeatureList, type SplitDocument, splitFeatures } from "./split-features.ts";

/** A GeoJSON document cut at its features, which are still to be parsed. */
export interface OpenDocument {
  readonly form: GeoJsonForm;
  readonly ranges: FeatureRanges;
  readonly frame: CollectionFrame;
  /** The root object without its features; for a sequence, null. */
  readonly root: unknown;
}

/** Why a file cannot be read at all. */
export class UnreadableError extends Error {
  override readonly name = "UnreadableError";
  constructor(readonly fault: FeatureFault) {
    super(fault.reason);
  }
}

/** Largest file read, in bytes: what Node reads into one array at once (2 GiB; Node documentation, fs.readFile). */
export const MAX_GEOJSON_BYTES = 2 ** 31 - 1;

const RECORD_SEPARATOR = 0x1e;
const OPEN_BRACE = 0x7b;
const GEOMETRY_TYPES: ReadonlySet<unknown> = new Set([
  ...["Point", "MultiPoint", "LineString", "MultiLineString", "Polygon", "MultiPolygon", "GeometryCollection"],
]);

/**
 * The document in the bytes: a FeatureCollection, a Feature, a geometry, or a sequence of Features (newline-delimited or RFC 8142).
 * Throws UnreadableError with the reason for everything else.
 */
export function openDocument(bytes: Uint8Array): OpenDocument {
  if (bytes.length > MAX_GEOJSON_BYTES) {
    const reason = `The file is ${bytes.length} bytes long; at most ${MAX_GEOJSON_BYTES} are read.`;
    throw new UnreadableError(featureFault("too-large", null, bytes.length, reason, "Split the file."));
  }
  const start = byteOrderMarkLength(bytes);
  let split: SplitDocument;
  try {
    split = splitFeatures(bytes, start);
    if (split.kind === "sequence") return openSequence(bytes, split.items);
    if (split.kind === "object") {
      const root = parseRoot(bytes, start, split.lists);
      return openRoot(bytes, start, root, split.root, split.lists);
    }
  } catch (error) {
    if (error instanceof UnreadableError) throw error;
    throw unreadable(bytes, faultyStart(bytes, start));
  }
  throw notGeoJson(bytes, start, null, "The file holds no JSON object.");
}

function openRoot(
  bytes: Uint8Array,
  start: number,
  root: unknown,
  ranges: FeatureRanges,
  lists: readonly FeatureList[],
): OpenDocument {
  const type = ownMember(root, "type");
  if (type === "Feature") return { form: "feature", ranges, frame: plainFrame(), root };
  if (GEOMETRY_TYPES.has(type)) return { form: "geometry", ranges, frame: plainFrame(), root };
  if (type !== "FeatureCollection") {
    throw notGeoJson(bytes, start, type, "The file is JSON but no GeoJSON: its type is not FeatureCollection.");
  }
  if (!Array.isArray(ownMember(root, "features"))) {
    throw notGeoJson(bytes, start, ownMember(root, "features"), "The FeatureCollection has no array of features.");
  }
  const [list] = lists;
  if (list === undefined || lists.length > 1) {
    throw notGeoJson(bytes, start, "features", "The FeatureCollection has more than one array of features.");
  }
  if (ranges.depth[0]! > MAX_DEPTH) {
    const reason = `The file is nested ${ranges.depth[0]} deep outside its features; at most ${MAX_DEPTH} is read.`;
    throw refusal(bytes, start, featureFault("too-deep", null, ranges.depth[0], reason, "Take the nested member out."));
  }
  const { items } = list;
  const headEnd = items.count > 0 ? items.start[0]! : list.open;
  const tailStart = items.count > 0 ? items.end[items.count - 1]! : list.open;
  const frame = { head: bytes.subarray(start, headEnd), tail: bytes.subarray(tailStart) };
  return { form: "feature-collection", ranges: items, frame, root };
}

/** A sequence is only taken for one when its first value is a Feature; else a second value is a fault of the JSON. */
function openSequence(bytes: Uint8Array, items: FeatureRanges): OpenDocument {
  const first = JSON.parse(utf8Text(bytes, items.start[0] ?? 0, items.end[0] ?? 0)) as unknown;
  if (ownMember(first, "type") !== "Feature") throw unreadable(bytes, byteOrderMarkLength(bytes));
  return { form: "sequence", ranges: items, frame: plainFrame(), root: null };
}

function parseRoot(bytes: Uint8Array, start: number, lists: readonly FeatureList[]): unknown {
  let text = "";
  let at = start;
  for (const { open, close } of lists) {
    text += utf8Text(bytes, at, open);
    at = close;
  }
  return JSON.parse(text + utf8Text(bytes, at)) as unknown;
}

/** Where in a broken sequence the value at fault begins; `start` where the text is no sequence of objects. Linear in the bytes. */
function faultyStart(bytes: Uint8Array, start: number): number {
  const scanner = new JsonScanner(bytes, start);
  let at = start;
  try {
    for (;;) {
      scanner.skipBlanks();
      while (scanner.peek() === RECORD_SEPARATOR) {
        scanner.at += 1;
        scanner.skipBlanks();
      }
      if (scanner.peek() !== OPEN_BRACE) return start;
      at = scanner.at;
      scanner.skipValue();
      if (findJsonFault(bytes, at, scanner.at) !== null) return at;
    }
  } catch {
    return at;
  }
}

/** Why bytes that no parser takes are no JSON, with line and column. `start` and `end` bound the JSON text in them. */
export function unreadable(bytes: Uint8Array, start: number, end = bytes.length): UnreadableError {
  const badByte = findUtf8Fault(bytes);
  if (badByte !== -1) {
    const { line, column } = placeInText(bytes, badByte);
    const isUtf16 = bytes.length > 1 && bytes[0]! + bytes[1]! === 0x1fd && Math.abs(bytes[0]! - bytes[1]!) === 1;
    const reason = `The text is not UTF-8${isUtf16 ? " but UTF-16" : ""}: line ${line}, column ${column}.`;
    return new UnreadableError(
      featureFault("bad-utf8", null, `0x${bytes[badByte]!.toString(16)}`, reason, "Save the file as UTF-8."),
    );
  }
  const fault = findJsonFault(bytes, start, end) ?? { offset: end, expected: "JSON this program can read" };
  const { line, column } = placeInText(bytes, fault.offset);
  const found = fault.offset < end ? utf8Lenient(bytes, fault.offset, end) : "the end of the text";
  const reason = `The text is not JSON: line ${line}, column ${column}: expected ${fault.expected}.`;
  return new UnreadableError(
    featureFault("bad-json", null, found, reason, "Export the file anew; it may be cut short or edited by hand."),
  );
}

const utf8Lenient = (bytes: Uint8Array, start: number, end: number): string =>
  new TextDecoder().decode(bytes.subarray(start, Math.min(end, start + 20)));

function notGeoJson(bytes: Uint8Array, start: number, value: unknown, reason: string): UnreadableError {
  const whatToDo =
    value === "Topology"
      ? "This is TopoJSON: export the layer as GeoJSON."
      : "Export the layer as GeoJSON (RFC 7946): a FeatureCollection with its features.";
  return refusal(bytes, start, featureFault("not-geojson", "type", shortText(value), reason, whatToDo));
}

/** A refusal for another reason than the syntax, unless the syntax is broken too: that outranks it. */
function refusal(bytes: Uint8Array, start: number, fault: FeatureFault): UnreadableError {
  const isText = findUtf8Fault(bytes) === -1;
  return isText && findJsonFault(bytes, start) === null ? new UnreadableError(fault) : unreadable(bytes, start);
}
