// Source: MUTCD 11th edition (2023, Rev. 1 2025), Tables 6B-1 (sign spacing), 6B-2 (buffer), 6B-3 (tapers) and section 6K.01 (devices, cones),
// second-hand from two unrelated copies that agree (V2); California MUTCD 2014 Table 6H-4(CA), shifting and downstream columns, and its cut-offs for
// sign spacing, read in a county permit file (V). Values typed from these documents.
import { expect, test } from "vitest";
import {
  bufferFt,
  coneHeightIn,
  DOWNSTREAM_TAPER_FT,
  deviceCount,
  deviceSpacingFt,
  ONE_LANE_TAPER_FT,
  SHORT_TAPER_SPACING_FT,
  shiftingTaperFt,
  shoulderTaperFt,
  signSpacingFt,
} from "../../src/core/zone/traffic-control.ts";

test.each([
  [20, 40],
  [25, 63],
  [30, 90],
  [35, 123],
  [40, 160],
  [45, 270],
  [50, 300],
  [55, 330],
  [60, 360],
  [65, 390],
  [70, 420],
  [75, 450],
])("6H-4(CA): shifting taper at %i mph with a 12 ft offset, in whole feet rounded half up", (mph, shifting) => {
  expect(Math.floor(shiftingTaperFt(12, mph) + 0.5)).toBe(shifting);
});

test("6B-3: one-lane two-way and downstream tapers are 50 to 100 ft, devices about 20 ft apart; 6H-4(CA): downstream at least 50 ft", () => {
  for (const ft of [ONE_LANE_TAPER_FT, DOWNSTREAM_TAPER_FT]) {
    expect(ft).toBeGreaterThanOrEqual(50);
    expect(ft).toBeLessThanOrEqual(100);
  }
  expect(SHORT_TAPER_SPACING_FT).toBe(20);
});

test.each([
  [20, 115],
  [25, 155],
  [30, 200],
  [35, 250],
  [40, 305],
  [45, 360],
  [50, 425],
  [55, 495],
  [60, 570],
  [65, 645],
  [70, 730],
  [75, 820],
])("6B-2: buffer at %i mph", (mph, ft) => {
  expect(bufferFt(mph)).toBe(ft);
});

test("6B-1: advance signs", () => {
  expect(signSpacingFt("collector", 25)).toEqual([100, 100, 100]);
  expect(signSpacingFt("minor-arterial", 45)).toEqual([350, 350, 350]);
  expect(signSpacingFt("rural-two-lane", 55)).toEqual([500, 500, 500]);
  expect(signSpacingFt("freeway", 70)).toEqual([1000, 1500, 2640]);
});

test("6K.01: devices as many feet apart as the speed in tapers, twice that on tangents; cones 18 in up to 40 mph, 28 in from 45", () => {
  expect(deviceSpacingFt(35)).toEqual([35, 70]);
  expect([30, 40, 45, 55].map(coneHeightIn)).toEqual([18, 18, 28, 28]);
  // Computed, not printed: 245 ft at 35 ft are 7 gaps, 8 devices; 8 ft of shoulder at 35 mph is L / 3 = 54.4 ft, 2 gaps, 3 devices.
  expect(deviceCount(245, 35)).toBe(8);
  expect(shoulderTaperFt(8, 35)).toBeCloseTo(54.44, 2);
  expect(deviceCount(shoulderTaperFt(8, 35), 35)).toBe(3);
});
