import { expect, it } from "vitest";
import { bearingGapDeg, compassPoint } from "../../../src/core/units/compass.ts";

it("names the nearest of eight points", () => {
  expect([0, 22, 23, 90, 180, 270, 337, 338, 360, -45].map(compassPoint)).toEqual([
    "north",
    "north",
    "northeast",
    "east",
    "south",
    "west",
    "northwest",
    "north",
    "north",
    "northwest",
  ]);
});

it("measures the smaller angle between two bearings", () => {
  expect(bearingGapDeg(350, 10)).toBe(20);
  expect(bearingGapDeg(0, 180)).toBe(180);
  expect(bearingGapDeg(-90, 270)).toBe(0);
});
