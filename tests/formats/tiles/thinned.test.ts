import { describe, expect, it } from "vitest";
import { featureLines, linesOf, memoryFile } from "../../../src/formats/tiles/byte-file.ts";
import { thinned } from "../../../src/formats/tiles/thinned.ts";
import { byteLines, points } from "./thin-cases.ts";

describe("thinning", () => {
  it("keeps all of the whole class, and counts for how many each other one stands", () => {
    const cloud = points(5000);
    for (const zoom of [0, 4, 9, 12]) {
      const kept = thinned(cloud, cloud.x.keys(), zoom);
      const urgent = [...cloud.x.keys()].filter((row) => cloud.classOf[row] === cloud.wholeClass);
      for (const row of urgent) expect(kept.get(row)).toBe(1);
      // Nothing is lost from the count, whatever is left out of the drawing.
      expect([...kept.values()].reduce((sum, count) => sum + count, 0)).toBe(5000);
    }
  });

  it("keeps at a closer zoom what it keeps farther out", () => {
    const cloud = points(5000);
    for (let zoom = 0; zoom < 13; zoom += 1) {
      const closer = thinned(cloud, cloud.x.keys(), zoom + 1);
      for (const row of thinned(cloud, cloud.x.keys(), zoom).keys()) expect(closer.has(row)).toBe(true);
    }
  });

  it("keeps the first in input order of each class in a square", () => {
    const cloud = {
      x: Float64Array.of(0.5001, 0.5002, 0.5001, 0.9),
      y: Float64Array.of(0.5001, 0.5001, 0.5002, 0.9),
      classOf: Uint8Array.of(2, 2, 1, 2),
      wholeClass: 0,
    };
    expect([...thinned(cloud, [0, 1, 2, 3], 2)]).toEqual([
      [0, 2],
      [2, 1],
      [3, 1],
    ]);
  });
});

describe("the lines of a file", () => {
  it("are those that splitting the whole text gives, with their places", () => {
    const { text, bytes } = byteLines();
    const found = [...linesOf(memoryFile(bytes))];
    expect(found.map((line) => line.text)).toEqual(text.split("\n"));
    for (const { offset, length, text: line } of found)
      expect(new TextDecoder().decode(bytes.subarray(offset, offset + length))).toBe(line);
  });

  it("are features with the comma between them left out", () => {
    const text =
      '{"type":"FeatureCollection","features":[\n{"type":"Feature","id":1},\n{"type":"Feature","id":2}\n]}\n';
    const bytes = new TextEncoder().encode(text);
    const found = [...featureLines(memoryFile(bytes))];
    expect(found.map((line) => JSON.parse(line.text).id)).toEqual([1, 2]);
    for (const { offset, length } of found)
      expect(() => JSON.parse(new TextDecoder().decode(bytes.subarray(offset, offset + length)))).not.toThrow();
  });
});
