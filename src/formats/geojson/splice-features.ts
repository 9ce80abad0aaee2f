import type { SourceFeature } from "../../core/model/feature.ts";
import { keyText } from "../json/key-text.ts";
import { ChunkWriter } from "./chunk-writer.ts";
import { plainFrame, withoutMembers } from "./collection-frame.ts";
import type { GeoJsonRead } from "./geojson-read.ts";
import { memberCuts } from "./member-cuts.ts";
import { MEMBER_PREFIX, MemberTexts, type MemberValue } from "./member-texts.ts";

/** New members of one feature's properties, in the order they are written; each name begins with `bough_`. */
export type Members = ReadonlyMap<string, MemberValue>;

/** A piece of the original bytes taken out, something put in its place, or both. */
interface Edit {
  readonly start: number;
  readonly end: number;
  readonly pieces: readonly Piece[];
}

type Piece = string | Uint8Array;

/**
 * One FeatureCollection of the used features of several files, in order, with new members at the end of each one's properties and every
 * other byte as it was. Yields chunks of about a megabyte.
 *
 * `membersOf` is asked for each used feature; null leaves it out (set aside by a later stage). See {@link FeatureSplicer}.
 */
export function* spliceFeatures(
  reads: readonly GeoJsonRead[],
  membersOf: (feature: SourceFeature) => Members | null,
): Generator<Uint8Array, void, undefined> {
  const splicer = new FeatureSplicer(reads);
  const texts = new MemberTexts();
  for (const read of reads) {
    for (const feature of read.features) {
      const members = membersOf(feature);
      if (members !== null) splicer.write(read, feature.index, texts.of(members));
      yield* splicer.take();
    }
  }
  yield* splicer.end();
}

/**
 * Writes features one after another into one FeatureCollection, each with its original bytes and new members at the end of its properties.
 *
 * Members the input already had under our prefix are replaced. What stood around the features is kept from the first file, without its `bbox` when
 * there are several files. Where coordinates were reprojected the geometry is written anew and the feature's `bbox` dropped; properties that are null
 * or missing become an object.
 */
export class FeatureSplicer {
  readonly #writer = new ChunkWriter();
  readonly #tail: Uint8Array;
  #written = 0;
  #read: GeoJsonRead | null = null;
  #writtenOfFile = 0;
  #at = 0;

  constructor(reads: readonly GeoJsonRead[]) {
    const [first] = reads;
    const frame = first === undefined ? plainFrame() : reads.length > 1 ? withoutMembers(first, ["bbox"]) : first;
    this.#writer.bytes(frame.head);
    this.#tail = frame.tail;
  }

  /** Writes a feature that stands behind all written before; `members` is JSON text or its bytes. */
  write(read: GeoJsonRead, index: number, members: string | Uint8Array): void {
    if (read !== this.#read) {
      this.#read = read;
      this.#writtenOfFile = 0;
      this.#at = 0;
    }
    if (this.#written > 0) writeGap(this.#writer, read, index, this.#writtenOfFile > 0);
    const geometry = read.reprojectedFrom === null ? null : this.#geometryOf(read, index);
    writeFeature(this.#writer, read, index, geometry, members);
    this.#written += 1;
    this.#writtenOfFile += 1;
  }

  /** The chunks of about a megabyte that are full. */
  take(): Uint8Array[] {
    return this.#writer.take();
  }

  /** All that is left, with what stood behind the features. */
  end(): Uint8Array[] {
    this.#writer.bytes(this.#tail);
    return this.#writer.end();
  }

  #geometryOf(read: GeoJsonRead, index: number): string {
    while (read.features[this.#at]!.index < index) this.#at += 1;
    return JSON.stringify(read.features[this.#at]!.geometry);
  }
}

/** The bytes between a feature and the one before it hold just one comma and blanks. */
function writeGap(writer: ChunkWriter, read: GeoJsonRead, index: number, isWithinFile: boolean): void {
  if (isWithinFile && read.form === "feature-collection") {
    writer.bytes(read.bytes.subarray(read.ranges.end[index - 1]!, read.ranges.start[index]!));
  } else writer.text(",\n");
}

/** `geometry` is the text of a geometry written anew; null keeps its bytes. */
function writeFeature(
  writer: ChunkWriter,
  read: GeoJsonRead,
  index: number,
  geometry: string | null,
  members: string | Uint8Array,
): void {
  const { bytes, ranges, form } = read;
  const start = ranges.start[index]!;
  const end = ranges.end[index]!;
  if (form === "geometry") {
    write(writer, ['{"type":"Feature","properties":{', members, '},"geometry":']);
    write(writer, [geometry ?? bytes.subarray(start, end), "}"]);
    return;
  }
  const edits = [...propertyEdits(read, index, members), ...reprojectionEdits(read, index, geometry)];
  edits.sort((a, b) => a.start - b.start || a.end - b.end);
  let at = start;
  for (const edit of edits) {
    writer.bytes(bytes.subarray(at, edit.start));
    write(writer, edit.pieces);
    at = edit.end;
  }
  writer.bytes(bytes.subarray(at, end));
}

function write(writer: ChunkWriter, pieces: readonly Piece[]): void {
  for (const piece of pieces) {
    if (typeof piece !== "string") writer.bytes(piece);
    else if (piece !== "") writer.text(piece);
  }
}

function propertyEdits({ bytes, ranges }: GeoJsonRead, index: number, members: Piece): Edit[] {
  const start = ranges.propertiesStart[index]!;
  const end = ranges.propertiesEnd[index]!;
  if (start === -1) {
    const at = memberCuts(bytes, ranges.start[index]!, ranges.end[index]!, () => false).insertAt;
    return [{ start: at, end: at, pieces: [',"properties":{', members, "}"] }];
  }
  if (bytes[start] !== 0x7b) return [{ start, end, pieces: ["{", members, "}"] }];
  const { cuts, insertAt, hasMembers } = memberCuts(bytes, start, end, (keyStart, keyEnd) =>
    isOurs(bytes, keyStart, keyEnd),
  );
  const edits = cuts.map(([from, to]): Edit => ({ start: from, end: to, pieces: [] }));
  if (members.length > 0) edits.push({ start: insertAt, end: insertAt, pieces: [hasMembers ? "," : "", members] });
  return edits;
}

function reprojectionEdits({ bytes, ranges }: GeoJsonRead, index: number, geometry: string | null): Edit[] {
  if (geometry === null) return [];
  const { cuts } = memberCuts(bytes, ranges.start[index]!, ranges.end[index]!, (keyStart, keyEnd) =>
    ["bbox", "crs"].includes(keyText(bytes, keyStart, keyEnd)),
  );
  const edits = cuts.map(([start, end]): Edit => ({ start, end, pieces: [] }));
  return [...edits, { start: ranges.geometryStart[index]!, end: ranges.geometryEnd[index]!, pieces: [geometry] }];
}

function isOurs(bytes: Uint8Array, keyStart: number, keyEnd: number): boolean {
  for (let at = 0; at < MEMBER_PREFIX.length; at += 1) {
    const byte = bytes[keyStart + 1 + at];
    if (byte === 0x5c) return keyText(bytes, keyStart, keyEnd).startsWith(MEMBER_PREFIX);
    if (byte !== MEMBER_PREFIX.charCodeAt(at)) return false;
  }
  return true;
}
