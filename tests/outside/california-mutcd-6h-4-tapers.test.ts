// Source: California MUTCD 2014, Table 6H-4(CA), tapers for a 12 ft offset, read in a county permit file; a hand-out table of merging tapers for
// other offsets from another county's permit file. Buffers: MUTCD 11th edition Table 6B-2, second-hand, equal to MoDOT EPG Table 903.3.1.
// Values typed from these documents.
import { expect, test } from "vitest";
import { stoppingSightDistanceFt } from "../../src/core/standard/stopping-sight-distance-ft.ts";
import { bufferFt, mergingTaperFt, shoulderTaperFt, signSpacingFt } from "../../src/core/zone/traffic-control.ts";

const TABLE_6H_4: readonly (readonly [mph: number, merging: number, shoulder: number])[] = [
  [20, 80, 27],
  [25, 125, 42],
  [30, 180, 60],
  [35, 245, 82],
  [40, 320, 107],
  [45, 540, 180],
  [50, 600, 200],
  [55, 660, 220],
  [60, 720, 240],
  [65, 780, 260],
  [70, 840, 280],
  [75, 900, 300],
];

test.each(TABLE_6H_4)(
  "tapers at %i mph with a 12 ft offset, in whole feet rounded half up",
  (mph, merging, shoulder) => {
    expect(Math.floor(mergingTaperFt(12, mph) + 0.5)).toBe(merging);
    expect(Math.floor(shoulderTaperFt(12, mph) + 0.5)).toBe(shoulder);
  },
);

test.each([
  [30, [75, 90, 105, 120, 135, 150, 165, 180]],
  [35, [102, 123, 143, 163, 184, 204, 225, 245]],
  [40, [133, 160, 187, 213, 240, 267, 293, 320]],
  [45, [225, 270, 315, 360, 405, 450, 495, 540]],
])("merging tapers at %i mph with offsets of 5 to 12 ft", (mph, lengths) => {
  expect([5, 6, 7, 8, 9, 10, 11, 12].map((width) => Math.floor(mergingTaperFt(width, mph) + 0.5))).toEqual(lengths);
});

test("buffers are the design stopping sight distances: the formula rounded up to the next 5 ft", () => {
  const published = [115, 155, 200, 250, 305, 360, 425, 495, 570, 645, 730, 820];
  published.forEach((ft, at) => {
    const mph = 20 + 5 * at;
    expect(bufferFt(mph)).toBe(ft);
    expect(Math.ceil(stoppingSightDistanceFt(mph) / 5 - 1e-6) * 5).toBe(ft);
  });
});

test("a speed between two rows takes the faster one: 50 km/h is 31.07 mph", () => {
  expect(bufferFt(50 / 1.609344)).toBe(250);
  expect(bufferFt(25 * 1.0000001)).toBe(155);
});

test("advance signs stand as MUTCD Table 6B-1 spaces them", () => {
  expect(signSpacingFt("local-residential", 25)).toEqual([100, 100, 100]);
  expect(signSpacingFt("major-arterial", 40)).toEqual([350, 350, 350]);
  expect(signSpacingFt("rural-two-lane", 45)).toEqual([500, 500, 500]);
  expect(signSpacingFt("freeway", 65)).toEqual([1000, 1500, 2640]);
});
