// Source: A. L. Clapp, IEEE tutorial on clearances, 1993, read: swing by atan(P d / w), horizontal D sin and drop D cos of the angle, wind
// 0.00256 V^2 lb/ft2 with mph or 0.613 V^2 Pa with m/s. Wires from General Order 95 Table 23 (read). The string's share is from memory, the same
// geometry. The answers are arithmetic on these.
import { describe, expect, it } from "vitest";
import { acsrConductor } from "../../src/core/surroundings/conductors/acsr-table.ts";
import { windPressurePa, wireLoad } from "../../src/core/surroundings/conductors/wire-load.ts";
import { blowOut, swingAngleRad } from "../../src/core/surroundings/conductors/wire-swing.ts";
import { pascalsFromPsf } from "../../src/core/units/force.ts";
import { feetFromMeters, METERS_PER_SECOND_PER_MPH, metersFromFeet } from "../../src/core/units/length.ts";

const swing = (size: string, stranding: string): number =>
  swingAngleRad(wireLoad(acsrConductor(size, stranding)!, pascalsFromPsf(6), 0));
const degrees = (rad: number): number => (rad * 180) / Math.PI;

describe("a wind of 6 lb/ft2", () => {
  it("swings 4/0 6/1 with 5 ft of sag by 43.94 degrees, 3.470 ft across and 1.400 ft up", () => {
    const angleRad = swing("4/0", "6/1");
    const { acrossM, belowM } = blowOut(metersFromFeet(5), angleRad);
    expect(Math.abs(degrees(angleRad) - 43.94)).toBeLessThan(0.006);
    expect(Math.abs(feetFromMeters(acrossM) - 3.47)).toBeLessThan(0.0006);
    expect(Math.abs(5 - feetFromMeters(belowM) - 1.4)).toBeLessThan(0.0006);
  });

  it("swings 795 26/7 with 20 ft of sag on a string of 4 ft by 26.88 degrees, 10.85 ft across", () => {
    const angleRad = swing("795", "26/7");
    const { acrossM, belowM } = blowOut(metersFromFeet(20), angleRad, metersFromFeet(4));
    expect(Math.abs(degrees(angleRad) - 26.88)).toBeLessThan(0.006);
    expect(Math.abs(feetFromMeters(acrossM) - 10.85)).toBeLessThan(0.006);
    // 24 cos 26.88 - 4 = 17.407 ft.
    expect(Math.abs(feetFromMeters(belowM) - 17.407)).toBeLessThan(0.002);
  });

  it("is 48.4 mph", () => {
    // 0.613 and 0.00256 are each rounded: they differ by a part in 900.
    const pascals = windPressurePa(48.4 * METERS_PER_SECOND_PER_MPH);
    expect(Math.abs(pascals / pascalsFromPsf(6) - 1)).toBeLessThan(0.003);
  });
});
