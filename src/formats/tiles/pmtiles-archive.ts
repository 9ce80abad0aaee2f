import { gzipSync } from "fflate";
import { type DirectoryEntry, directoryBytes } from "./pmtiles-directory.ts";
import { tileId } from "./tile-id.ts";

/** What an archive says of itself beside its tiles. */
export interface ArchiveFacts {
  /** JSON metadata; for vector tiles with `vector_layers` as TileJSON 3.0 describes them. */
  readonly metadata: object;
  /** West, south, east and north in degrees. */
  readonly bounds: readonly [west: number, south: number, east: number, north: number];
  readonly centerZoom: number;
}

const HEADER_BYTES = 127;
/** Header and root directory have to end before here, so that a reader has both with its first request. */
const ROOT_ENDS = 16_384;
/** Entries of a leaf directory at first; doubled until the root fits. */
const LEAF_ENTRIES = 4096;
const GZIP = 2;
const VECTOR_TILES = 1;

/**
 * Vector tiles on their way into one PMTiles archive, version 3. Tiles may come in any order; they are compressed as they come and kept so, and stand in
 * the archive in the order of their ids. The same tiles give the same bytes.
 */
export class PmtilesArchive {
  readonly #tiles: { readonly id: number; readonly zoom: number; readonly bytes: Uint8Array }[] = [];

  /** Takes a tile's Mapbox Vector Tile bytes. A tile may come once; one without bytes is left out, as the format asks. */
  add(zoom: number, x: number, y: number, tile: Uint8Array): void {
    if (tile.length > 0) this.#tiles.push({ id: tileId(zoom, x, y), zoom, bytes: gzipSync(tile, { mtime: 0 }) });
  }

  /** The archive in pieces, one after another. Throws RangeError where a tile came twice or none came. */
  end({ metadata, bounds, centerZoom }: ArchiveFacts): Uint8Array[] {
    const tiles = this.#tiles.sort((one, other) => one.id - other.id);
    const entries: DirectoryEntry[] = [];
    let dataBytes = 0;
    for (const { id, bytes } of tiles) {
      if (entries[entries.length - 1]?.tileId === id) throw new RangeError(`Expected each tile once, got ${id} twice`);
      entries.push({ tileId: id, offset: dataBytes, length: bytes.length, runLength: 1 });
      dataBytes += bytes.length;
    }
    const { root, leaves } = directories(entries);
    const meta = gzipSync(new TextEncoder().encode(JSON.stringify(metadata)), { mtime: 0 });
    const header = new DataView(new ArrayBuffer(HEADER_BYTES));
    [...new TextEncoder().encode("PMTiles"), 3].forEach((byte, at) => {
      header.setUint8(at, byte);
    });
    const sections = [root.length, meta.length, leaves.length, dataBytes];
    let offset = HEADER_BYTES;
    for (const [at, length] of sections.entries()) {
      header.setBigUint64(8 + at * 16, BigInt(offset), true);
      header.setBigUint64(16 + at * 16, BigInt(length), true);
      offset += length;
    }
    // Tiles addressed, entries and contents: every tile stands for itself.
    for (const at of [72, 80, 88]) header.setBigUint64(at, BigInt(entries.length), true);
    const zooms = tiles.map(({ zoom }) => zoom);
    const least = zooms.reduce((one, other) => Math.min(one, other), 255);
    [1, GZIP, GZIP, VECTOR_TILES, least, Math.max(0, zooms[zooms.length - 1] ?? 0)].forEach((byte, at) => {
      header.setUint8(96 + at, byte);
    });
    const [west, south, east, north] = bounds;
    const places = [west, south, east, north];
    for (const [at, degrees] of places.entries()) header.setInt32(102 + at * 4, fixed(degrees), true);
    header.setUint8(118, centerZoom);
    header.setInt32(119, fixed((west + east) / 2), true);
    header.setInt32(123, fixed((south + north) / 2), true);
    return [new Uint8Array(header.buffer), root, meta, leaves, ...tiles.map(({ bytes }) => bytes)];
  }
}

const fixed = (degrees: number): number => Math.round(degrees * 1e7);

/** The root directory alone where it is small enough, else one over leaf directories. */
function directories(entries: readonly DirectoryEntry[]): { root: Uint8Array; leaves: Uint8Array } {
  const whole = compressed(entries);
  if (HEADER_BYTES + whole.length < ROOT_ENDS) return { root: whole, leaves: new Uint8Array() };
  for (let size = LEAF_ENTRIES; ; size *= 2) {
    const parts: Uint8Array[] = [];
    const roots: DirectoryEntry[] = [];
    let offset = 0;
    for (let from = 0; from < entries.length; from += size) {
      const part = compressed(entries.slice(from, from + size));
      roots.push({ tileId: entries[from]!.tileId, offset, length: part.length, runLength: 0 });
      parts.push(part);
      offset += part.length;
    }
    const root = compressed(roots);
    if (HEADER_BYTES + root.length < ROOT_ENDS) return { root, leaves: joined(parts, offset) };
  }
}

const compressed = (entries: readonly DirectoryEntry[]): Uint8Array => gzipSync(directoryBytes(entries), { mtime: 0 });

function joined(parts: readonly Uint8Array[], length: number): Uint8Array {
  const bytes = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}
