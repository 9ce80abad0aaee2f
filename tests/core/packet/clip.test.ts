import { expect, test } from "vitest";
import { clipLine, clipRing } from "../../../src/core/packet/clip.ts";

const frame = { left: 0, top: 0, right: 10, bottom: 10 };

test("a line that leaves and comes back becomes two parts", () => {
  const parts = clipLine(
    [
      [5, 5],
      [15, 5],
      [15, 8],
      [5, 8],
    ],
    frame,
  );
  expect(parts).toEqual([
    [
      [5, 5],
      [10, 5],
    ],
    [
      [10, 8],
      [5, 8],
    ],
  ]);
});

test("a line inside is kept whole and one outside is gone", () => {
  expect(
    clipLine(
      [
        [1, 1],
        [2, 2],
        [3, 1],
      ],
      frame,
    ),
  ).toHaveLength(1);
  expect(
    clipLine(
      [
        [11, 1],
        [12, 9],
      ],
      frame,
    ),
  ).toEqual([]);
});

test("a square over a corner keeps the quarter inside", () => {
  const ring = clipRing(
    [
      [5, 5],
      [15, 5],
      [15, 15],
      [5, 15],
    ],
    frame,
  );
  const area = Math.abs(
    ring.reduce((sum, [x, y], at) => {
      const [nextX, nextY] = ring[(at + 1) % ring.length]!;
      return sum + (x * nextY - nextX * y) / 2;
    }, 0),
  );
  expect(area).toBe(25);
});
