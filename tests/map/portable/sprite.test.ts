import { unzlibSync } from "fflate";
import { describe, expect, test } from "vitest";
import { halved } from "../../../src/map/portable/halved.ts";
import { png } from "../../../src/map/portable/png.ts";
import { sprite } from "../../../src/map/portable/sprite.ts";
import { mapImages } from "../../../src/map/symbols/mark-images.ts";

interface Entry {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly pixelRatio: number;
}

/** Width, height and RGBA rows of a PNG without row filters, read chunk by chunk as the standard lays them out. */
function decoded(bytes: Uint8Array): { width: number; height: number; data: Uint8Array } {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const [width, height] = [view.getUint32(16), view.getUint32(20)];
  expect([...bytes.subarray(24, 29)]).toEqual([8, 6, 0, 0, 0]);
  const length = view.getUint32(33);
  expect(new TextDecoder().decode(bytes.subarray(37, 41))).toBe("IDAT");
  const rows = unzlibSync(bytes.subarray(41, 41 + length));
  const data = new Uint8Array(width * height * 4);
  for (let row = 0; row < height; row += 1) {
    expect(rows[row * (width * 4 + 1)]).toBe(0);
    data.set(rows.subarray(row * (width * 4 + 1) + 1, (row + 1) * (width * 4 + 1)), row * width * 4);
  }
  return { width, height, data };
}

describe("the picture writer", () => {
  test("writes the pixels it was given", () => {
    const data = Uint8ClampedArray.from([255, 0, 0, 255, 0, 255, 0, 128, 0, 0, 255, 0, 9, 8, 7, 6]);
    const back = decoded(png({ width: 2, height: 2, data }));
    expect([back.width, back.height]).toEqual([2, 2]);
    expect([...back.data]).toEqual([...data]);
  });

  test("closes a chunk with the sum of the standard: the empty IEND's is AE 42 60 82", () => {
    const bytes = png({ width: 1, height: 1, data: new Uint8ClampedArray(4) });
    expect([...bytes.subarray(-4)]).toEqual([0xae, 0x42, 0x60, 0x82]);
  });
});

describe("half size", () => {
  test("is the mean of four pixels, a clear one having no say in the color", () => {
    const data = Uint8ClampedArray.from([200, 0, 0, 255, 100, 0, 0, 255, 0, 0, 0, 0, 0, 0, 0, 0]);
    expect([...halved({ width: 2, height: 2, data }).data]).toEqual([150, 0, 0, 128]);
  });

  test("needs even sides", () => {
    expect(() => halved({ width: 3, height: 2, data: new Uint8ClampedArray(24) })).toThrow(/got 3 by 2/);
  });
});

describe.each(["light", "dark", "print"] as const)("the %s sprite", (theme) => {
  const images = mapImages(theme);

  test("holds every image of the map, each at its place and whole", () => {
    const { index, sheet } = sprite(theme, 2);
    const entries = JSON.parse(index) as Record<string, Entry>;
    const { width, data } = decoded(sheet);
    expect(Object.keys(entries)).toEqual(images.map(({ id }) => id.slice("boughline-".length)));
    for (const image of images) {
      const { x, y, ...size } = entries[image.id.slice("boughline-".length)]!;
      expect(size).toEqual({ width: image.width, height: image.height, pixelRatio: 2 });
      for (let row = 0; row < image.height; row += 1) {
        const from = ((y + row) * width + x) * 4;
        expect([...data.subarray(from, from + image.width * 4)]).toEqual([
          ...image.data.subarray(row * image.width * 4, (row + 1) * image.width * 4),
        ]);
      }
    }
  });

  test("has a sheet for plain screens with the same names at half the size", () => {
    const [plain, dense] = ([1, 2] as const).map(
      (ratio) => JSON.parse(sprite(theme, ratio).index) as Record<string, Entry>,
    );
    expect(Object.keys(plain!)).toEqual(Object.keys(dense!));
    for (const [name, entry] of Object.entries(plain!)) {
      expect(entry.pixelRatio).toBe(1);
      expect(entry.width).toBe(dense![name]!.width / 2);
    }
  });
});
