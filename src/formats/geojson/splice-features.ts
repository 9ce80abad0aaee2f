import type { SourceFeature } from "../../core/model/feature.ts";
import { keyText } from "../json/key-text.ts";
import { ChunkWriter } from "./chunk-writer.ts";
import { plainFrame, withoutMembers } from "./collection-frame.ts";
import type { GeoJsonRead } from "./geojson-read.ts";
import { memberCuts } from "./member-cuts.ts";

/** What a new member can hold; numbers are finite and already rounded. */
export type MemberValue = string | number | boolean | null;
/** New members of one feature's properties, in the order they are written; each name begins with `bough_`. */
export type Members = ReadonlyMap<string, MemberValue>;

/** Prefix of every member this program writes into a city's features. */
export const MEMBER_PREFIX = "bough_";

/** A piece of the original bytes taken out, something put in its place, or both. */
interface Edit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/**
 * One FeatureCollection of the used features of several files, in order, with new members at the end of each one's properties and every
 * other byte as it was. Yields chunks of about a megabyte.
 *
 * `membersOf` is asked for each used feature; null leaves it out (set aside by a later stage). Members the input already had under our
 * prefix are replaced. What stood around the features is kept from the first file, without its `bbox` when there are several files.
 * Where coordinates were reprojected the geometry is written anew and the feature's `bbox` dropped; properties that are null or missing
 * become an object. Throws RangeError for a name without the prefix or a number that is not finite.
 */
export function* spliceFeatures(
  reads: readonly GeoJsonRead[],
  membersOf: (feature: SourceFeature) => Members | null,
): Generator<Uint8Array, void, undefined> {
  const [first] = reads;
  const frame = first === undefined ? plainFrame() : reads.length > 1 ? withoutMembers(first, ["bbox"]) : first;
  const writer = new ChunkWriter();
  const names: NameTexts = new Map();
  writer.bytes(frame.head);
  let written = 0;
  for (const read of reads) {
    let writtenOfFile = 0;
    for (const feature of read.features) {
      const members = membersOf(feature);
      if (members === null) continue;
      if (written > 0) writeGap(writer, read, feature.index, writtenOfFile > 0);
      writeFeature(writer, read, feature, memberText(members, names));
      written += 1;
      writtenOfFile += 1;
      yield* writer.take();
    }
  }
  writer.bytes(frame.tail);
  yield* writer.end();
}

/** The bytes between a feature and the one before it hold just one comma and blanks. */
function writeGap(writer: ChunkWriter, read: GeoJsonRead, index: number, isWithinFile: boolean): void {
  if (isWithinFile && read.form === "feature-collection") {
    writer.bytes(read.bytes.subarray(read.ranges.end[index - 1]!, read.ranges.start[index]!));
  } else writer.text(",\n");
}

function writeFeature(writer: ChunkWriter, read: GeoJsonRead, feature: SourceFeature, text: string): void {
  const { bytes, ranges, form } = read;
  const start = ranges.start[feature.index]!;
  const end = ranges.end[feature.index]!;
  if (form === "geometry") {
    writer.text(`{"type":"Feature","properties":{${text}},"geometry":`);
    if (read.reprojectedFrom === null) writer.bytes(bytes.subarray(start, end));
    else writer.text(JSON.stringify(feature.geometry));
    writer.text("}");
    return;
  }
  const edits = [...propertyEdits(read, feature.index, text), ...reprojectionEdits(read, feature)];
  edits.sort((a, b) => a.start - b.start || a.end - b.end);
  let at = start;
  for (const edit of edits) {
    writer.bytes(bytes.subarray(at, edit.start));
    if (edit.text !== "") writer.text(edit.text);
    at = edit.end;
  }
  writer.bytes(bytes.subarray(at, end));
}

function propertyEdits({ bytes, ranges }: GeoJsonRead, index: number, text: string): Edit[] {
  const start = ranges.propertiesStart[index]!;
  const end = ranges.propertiesEnd[index]!;
  if (start === -1) {
    const at = memberCuts(bytes, ranges.start[index]!, ranges.end[index]!, () => false).insertAt;
    return [{ start: at, end: at, text: `,"properties":{${text}}` }];
  }
  if (bytes[start] !== 0x7b) return [{ start, end, text: `{${text}}` }];
  const { cuts, insertAt, hasMembers } = memberCuts(bytes, start, end, (keyStart, keyEnd) =>
    isOurs(bytes, keyStart, keyEnd),
  );
  const edits = cuts.map(([from, to]): Edit => ({ start: from, end: to, text: "" }));
  if (text !== "") edits.push({ start: insertAt, end: insertAt, text: hasMembers ? `,${text}` : text });
  return edits;
}

function reprojectionEdits({ bytes, ranges, reprojectedFrom }: GeoJsonRead, feature: SourceFeature): Edit[] {
  if (reprojectedFrom === null) return [];
  const { cuts } = memberCuts(bytes, ranges.start[feature.index]!, ranges.end[feature.index]!, (keyStart, keyEnd) =>
    ["bbox", "crs"].includes(keyText(bytes, keyStart, keyEnd)),
  );
  const edits = cuts.map(([start, end]): Edit => ({ start, end, text: "" }));
  const start = ranges.geometryStart[feature.index]!;
  const end = ranges.geometryEnd[feature.index]!;
  return [...edits, { start, end, text: JSON.stringify(feature.geometry) }];
}

function isOurs(bytes: Uint8Array, keyStart: number, keyEnd: number): boolean {
  for (let at = 0; at < MEMBER_PREFIX.length; at += 1) {
    const byte = bytes[keyStart + 1 + at];
    if (byte === 0x5c) return keyText(bytes, keyStart, keyEnd).startsWith(MEMBER_PREFIX);
    if (byte !== MEMBER_PREFIX.charCodeAt(at)) return false;
  }
  return true;
}

/** Names as JSON with the colon behind them, worked out once a file. */
type NameTexts = Map<string, string>;

function memberText(members: Members, names: NameTexts): string {
  let text = "";
  for (const [name, value] of members) {
    if (typeof value === "number" && !Number.isFinite(value)) {
      throw new RangeError(`Expected a finite number for ${name}, got ${value}`);
    }
    const key = names.get(name) ?? nameText(name, names);
    const json = typeof value === "string" ? JSON.stringify(value) : value === 0 ? "0" : String(value);
    text += text === "" ? key + json : `,${key}${json}`;
  }
  return text;
}

function nameText(name: string, names: NameTexts): string {
  if (!name.startsWith(MEMBER_PREFIX)) throw new RangeError(`Expected a name with ${MEMBER_PREFIX}, got "${name}"`);
  const text = `${JSON.stringify(name)}:`;
  names.set(name, text);
  return text;
}
