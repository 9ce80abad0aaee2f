import { PMTiles, type Source } from "pmtiles";
import { describe, expect, it } from "vitest";
import { joinBytes } from "../../../src/formats/join-bytes.ts";
import { PmtilesArchive } from "../../../src/formats/tiles/pmtiles-archive.ts";
import { directoryBytes } from "../../../src/formats/tiles/pmtiles-directory.ts";
import { tileId } from "../../../src/formats/tiles/tile-id.ts";

/** A reader of the format that is not ours, over bytes, which counts what it asks for. */
function reading(bytes: Uint8Array): { readonly archive: PMTiles; readonly asked: [number, number][] } {
  const asked: [number, number][] = [];
  const source: Source = {
    getKey: () => "memory",
    getBytes: async (offset, length) => {
      asked.push([offset, length]);
      return { data: bytes.slice(offset, offset + length).buffer };
    },
  };
  return { archive: new PMTiles(source), asked };
}

const facts = { metadata: { name: "x" }, bounds: [-139.6, 44.2, -139.4, 44.3] as const, centerZoom: 12 };
const tile = (of: number): Uint8Array => Uint8Array.of(of % 251, of % 241, 7, of % 239);

describe("a directory", () => {
  it("is the bytes that the format's text describes", () => {
    // Reckoned by hand from "Directory Serialization": count, differences of ids, runs, lengths, then offsets plus one or 0 where contiguous.
    const entries = [
      { tileId: 5, offset: 0, length: 300, runLength: 1 },
      { tileId: 42, offset: 300, length: 7, runLength: 2 },
      { tileId: 69, offset: 0, length: 300, runLength: 1 },
    ];
    const expected = [3, 5, 37, 27, 1, 2, 1, 0xac, 0x02, 7, 0xac, 0x02, 1, 0, 1];
    expect([...directoryBytes(entries)]).toEqual(expected);
  });

  it("is refused without entries or with an entry that has no bytes", () => {
    expect(() => directoryBytes([])).toThrow(RangeError);
    expect(() => directoryBytes([{ tileId: 0, offset: 0, length: 0, runLength: 1 }])).toThrow(RangeError);
  });
});

describe("an archive", () => {
  it("gives an independent reader every tile, and its header says what is in it", async () => {
    const writer = new PmtilesArchive();
    const places = [
      [3, 1, 5],
      [0, 0, 0],
      [3, 7, 7],
      [2, 1, 1],
    ] as const;
    for (const [at, [zoom, x, y]] of places.entries()) writer.add(zoom, x, y, tile(at));
    const bytes = joinBytes(writer.end(facts));
    const { archive } = reading(bytes);
    const header = await archive.getHeader();
    expect(header).toMatchObject({
      specVersion: 3,
      numAddressedTiles: 4,
      numTileEntries: 4,
      numTileContents: 4,
      clustered: true,
      internalCompression: 2,
      tileCompression: 2,
      tileType: 1,
      minZoom: 0,
      maxZoom: 3,
      minLon: -139.6,
      minLat: 44.2,
      maxLon: -139.4,
      maxLat: 44.3,
      centerZoom: 12,
    });
    expect(header.tileDataOffset + (header.tileDataLength ?? 0)).toBe(bytes.length);
    for (const [at, [zoom, x, y]] of places.entries()) {
      const found = await archive.getZxy(zoom, x, y);
      expect([...new Uint8Array(found!.data)]).toEqual([...tile(at)]);
    }
    expect(await archive.getZxy(1, 0, 0)).toBeUndefined();
    expect(await archive.getMetadata()).toEqual({ name: "x" });
  });

  it("has its tiles in the order of their ids, whatever the order in which they came, with the same bytes", () => {
    const places = Array.from({ length: 64 }, (_, at) => [3, at % 8, Math.floor(at / 8)] as const);
    const write = (order: readonly (readonly [number, number, number])[]) => {
      const writer = new PmtilesArchive();
      for (const [zoom, x, y] of order) writer.add(zoom, x, y, tile(tileId(zoom, x, y)));
      return joinBytes(writer.end(facts));
    };
    expect(write([...places].reverse())).toEqual(write(places));
  });

  it("keeps the root within what a reader asks for first, over leaf directories, and gives every tile", async () => {
    const writer = new PmtilesArchive();
    // Lengths and gaps without a pattern, so that directories do not shrink to nothing.
    let state = 11;
    const next = (most: number) => {
      state = (state * 48_271) % 2_147_483_647;
      return state % most;
    };
    const places = new Map<number, readonly [x: number, y: number, content: Uint8Array]>();
    while (places.size < 8000) {
      const [x, y] = [next(4096), next(4096)];
      if (!places.has(tileId(12, x, y)))
        places.set(tileId(12, x, y), [x, y, Uint8Array.from({ length: 1 + next(97) }, () => next(256))]);
    }
    for (const [x, y, content] of places.values()) writer.add(12, x, y, content);
    const bytes = joinBytes(writer.end(facts));
    const { archive, asked } = reading(bytes);
    const header = await archive.getHeader();
    expect(header.rootDirectoryOffset + header.rootDirectoryLength).toBeLessThanOrEqual(16_384);
    expect(header.leafDirectoryLength ?? 0).toBeGreaterThan(0);
    const inOrder = [...places].sort(([one], [other]) => one - other).map(([, place]) => place);
    for (const at of [0, 1, 4095, 4096, 5000, 7999]) {
      const [x, y, content] = inOrder[at]!;
      expect([...new Uint8Array((await archive.getZxy(12, x, y))!.data)]).toEqual([...content]);
    }
    // A range each: never the whole.
    expect(asked.reduce((sum, [, length]) => sum + length, 0)).toBeLessThan(bytes.length);
  });

  it("refuses a tile twice", () => {
    const writer = new PmtilesArchive();
    writer.add(1, 0, 0, tile(1));
    writer.add(1, 0, 0, tile(2));
    expect(() => writer.end(facts)).toThrow(/once/);
  });
});
