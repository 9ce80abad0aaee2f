import { zxyToTileId } from "pmtiles";
import { describe, expect, it } from "vitest";
import { tileId } from "../../../src/formats/tiles/tile-id.ts";

describe("the number of a tile", () => {
  it("is what the format's text gives for the first tiles of the curves", () => {
    // PMTiles version 3: ids begin at 0 with the one tile of zoom 0, then follow the curve of zoom 1.
    const first = [
      [0, 0, 0],
      [1, 0, 0],
      [1, 0, 1],
      [1, 1, 1],
      [1, 1, 0],
      [2, 0, 0],
    ] as const;
    expect(first.map(([zoom, x, y]) => tileId(zoom, x, y))).toEqual([0, 1, 2, 3, 4, 5]);
  });

  it("is what the reference reader reckons, for every tile of the first zooms and some of the closest", () => {
    for (let zoom = 0; zoom <= 6; zoom += 1)
      for (let x = 0; x < 2 ** zoom; x += 1)
        for (let y = 0; y < 2 ** zoom; y += 1) expect(tileId(zoom, x, y)).toBe(zxyToTileId(zoom, x, y));
    for (const [zoom, x, y] of [
      [16, 7_372, 23_640],
      [22, 4_194_303, 0],
      [26, 2 ** 26 - 1, 2 ** 26 - 1],
      [26, 12_345_678, 55_555_555],
    ] as const)
      expect(tileId(zoom, x, y)).toBe(zxyToTileId(zoom, x, y));
  });

  it("is refused for a tile that its zoom does not have", () => {
    expect(() => tileId(1, 2, 0)).toThrow(RangeError);
    expect(() => tileId(27, 0, 0)).toThrow(RangeError);
    expect(() => tileId(3, 0.5, 0)).toThrow(RangeError);
  });
});
