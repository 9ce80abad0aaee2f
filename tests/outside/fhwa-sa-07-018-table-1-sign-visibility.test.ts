// Source: FHWA-SA-07-018, Vegetation Control for Safety, rev. August 2008, Table 1, clear distance to see a sign (second-hand: quoted with its text on a
// community page; a state LTAP page confirms table and classes). Values typed from it; distances must come out exactly. What the table does
// not say is our choice, stated in `viewDistanceM`: straight between its rows, and the line through the nearest two rows beyond them.

import { describe, expect, it } from "vitest";
import { usCommon } from "../../src/core/standard/parse-standard.ts";
import { faceKindOf } from "../../src/core/surroundings/sight/faces/face-kind.ts";
import { viewDistanceM } from "../../src/core/surroundings/sight/faces/view-distance-m.ts";

const { faces } = usCommon().views;
const feet = (rows: typeof faces.critical, mph: number, asksForStop: boolean): number =>
  viewDistanceM(rows, mph * 1.609344, asksForStop) / 0.3048;

describe("distance from which a sign must be seen, FHWA-SA-07-018 Table 1", () => {
  it.each([
    [30, 250, 150],
    [40, 350, 200],
    [50, 450, 250],
    [60, 600, 300],
  ])("at %i mph is %i ft for critical and %i ft for other signs", (mph, critical, other) => {
    expect(feet(faces.critical, mph, true)).toBeCloseTo(critical, 9);
    expect(feet(faces.noncritical, mph, false)).toBeCloseTo(other, 9);
  });

  it("lies halfway between two rows at the speed halfway between them", () => {
    expect(feet(faces.critical, 35, true)).toBeCloseTo(300, 9);
    expect(feet(faces.noncritical, 45, false)).toBeCloseTo(225, 9);
  });

  it("goes on below 30 mph as from 40 to 30: 10 ft a mph for critical signs, 5 ft for others", () => {
    expect(feet(faces.critical, 25, true)).toBeCloseTo(200, 9);
    expect(feet(faces.critical, 20, true)).toBeCloseTo(150, 9);
    expect(feet(faces.noncritical, 25, false)).toBeCloseTo(125, 9);
  });

  it("is never less than the design stopping sight distance where a stop may be asked for", () => {
    // 80 mph: the line gives 600 + 20 * 15 = 900 ft, stopping takes 910 ft.
    expect(feet(faces.critical, 80, true)).toBeCloseTo(910, 9);
    // 5 mph: the line gives 0; stopping takes 1.47 * 5 * 2.5 + 1.075 * 25 / 11.2 = 20.8 ft, rounded up to 25.
    expect(feet(faces.critical, 5, true)).toBeCloseTo(25, 9);
  });

  it.each([
    ["STOP", "stop"],
    ["R1-1", "stop"],
    ["US:R1-1", "stop"],
    ["YIELD", "yield"],
    ["R1-2", "yield"],
    ["ONE WAY", "critical"],
    ["R6-1", "critical"],
    ["DO NOT ENTER", "critical"],
    ["R5-1", "critical"],
    ["WRONG WAY", "critical"],
    ["R5-1a", "critical"],
    ["maxspeed", "other"],
    ["R2-1", "other"],
    ["W1-2", "other"],
    ["Stop Ahead", "other"],
    ["R7-1", null],
    ["No Parking", null],
    ["D3-1", null],
    ["street_lamp", null],
    ["bus stop", null],
  ])("takes %s for %s", (kind, expected) => {
    const control = expected === "stop" || expected === "yield" ? expected : null;
    expect(faceKindOf("signs", kind, control)).toBe(expected);
  });
});
