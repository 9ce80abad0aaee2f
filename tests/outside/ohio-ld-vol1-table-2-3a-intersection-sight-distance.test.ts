import { describe, expect, it } from "vitest";
import {
  intersectionSightDistanceFt,
  intersectionSightDistanceM,
  roundUpTo5,
} from "../../src/core/surroundings/sight/intersection-sight-distance-ft.ts";

/**
 * Source: Highway Engineering Handbook Table 2.3A, taken from Ohio DOT Location and Design Manual Vol. 1 (read), passenger cars from a stop:
 * case B1, left turn, 7.5 s, and cases B2/B3, right turn and crossing, 6.5 s, by design speed. Case F, left from the major road, 5.5 s:
 * Green Book chapter 9 as scanned in a city's agenda of 18 April 2017 (second-hand); the design values of 60 and 65 mph are not legible there.
 * A single-unit truck at 50 mph: practice exam for engineers (read).
 */
const ROWS: readonly (readonly [mph: number, b1: number, b1Design: number, b2: number, b2Design: number])[] = [
  [15, 165.4, 170, 143.3, 145],
  [20, 220.5, 225, 191.1, 195],
  [25, 275.6, 280, 238.9, 240],
  [30, 330.8, 335, 286.7, 290],
  [35, 385.9, 390, 334.4, 335],
  [40, 441.0, 445, 382.2, 385],
  [45, 496.1, 500, 430.0, 430],
  [50, 551.3, 555, 477.8, 480],
  [55, 606.4, 610, 525.5, 530],
  [60, 661.5, 665, 573.3, 575],
  [65, 716.6, 720, 621.1, 625],
  [70, 771.8, 775, 668.9, 670],
];
const CASE_F: readonly (readonly [mph: number, raw: number, design: number | null])[] = [
  [15, 121.3, 125],
  [20, 161.7, 165],
  [25, 202.1, 205],
  [30, 242.6, 245],
  [35, 283.0, 285],
  [40, 323.4, 325],
  [45, 363.8, 365],
  [50, 404.3, 405],
  [55, 444.7, 445],
  [60, 485.1, null],
  [65, 525.5, null],
  [70, 566.0, 570],
  [75, 606.4, 610],
  [80, 646.8, 650],
];
/** The scan's row of 100 km/h reads 162.9 m; its design value and the rows around it say 152.9. */
const CASE_F_METRIC: readonly (readonly [kmh: number, raw: number, design: number])[] = [
  [20, 30.6, 35],
  [30, 45.9, 50],
  [40, 61.2, 65],
  [50, 76.5, 80],
  [60, 91.7, 95],
  [70, 107.0, 110],
  [80, 122.3, 125],
  [90, 137.6, 140],
  [100, 152.9, 155],
  [110, 168.2, 170],
  [120, 183.5, 185],
  [130, 198.8, 200],
];

describe("intersection sight distance", () => {
  it.each(ROWS)("at %i mph from a stop", (mph, b1, b1Design, b2, b2Design) => {
    // Printed to 0.1 ft; 0.2 ft allows for rounding of its parts.
    expect(Math.abs(intersectionSightDistanceFt(mph, 7.5) - b1)).toBeLessThan(0.2);
    expect(Math.abs(intersectionSightDistanceFt(mph, 6.5) - b2)).toBeLessThan(0.2);
    expect(roundUpTo5(intersectionSightDistanceFt(mph, 7.5))).toBe(b1Design);
    expect(roundUpTo5(intersectionSightDistanceFt(mph, 6.5))).toBe(b2Design);
  });

  it.each(CASE_F)("at %i mph left from the major road", (mph, raw, design) => {
    expect(Math.abs(intersectionSightDistanceFt(mph, 5.5) - raw)).toBeLessThan(0.2);
    if (design !== null) expect(roundUpTo5(intersectionSightDistanceFt(mph, 5.5))).toBe(design);
  });

  it.each(CASE_F_METRIC)("at %i km/h left from the major road, metric, same scan", (kmh, raw, design) => {
    expect(Math.abs(intersectionSightDistanceM(kmh, 5.5) - raw)).toBeLessThan(0.06);
    expect(roundUpTo5(intersectionSightDistanceM(kmh, 5.5))).toBe(design);
  });

  it("of a single-unit truck turning left at 50 mph is 698 ft (practice exam, unrounded)", () => {
    expect(Math.abs(intersectionSightDistanceFt(50, 9.5) - 698)).toBeLessThan(0.5);
  });
});
