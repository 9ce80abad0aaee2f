import { expect, it } from "vitest";
import {
  NEWTONS_PER_METER_PER_POUND_FOOT,
  NEWTONS_PER_POUND_FORCE,
  newtonsFromPounds,
  newtonsPerMeter,
  pascalsFromPsf,
  pascalsFromPsi,
} from "../../../src/core/units/force.ts";
import { celsiusFromFahrenheit } from "../../../src/core/units/temperature.ts";

it("has the pound-force, 4.4482216152605 N by definition", () => {
  // 1e-13 is the last digit of the product.
  expect(Math.abs(NEWTONS_PER_POUND_FORCE - 4.4482216152605)).toBeLessThan(1e-13);
  expect(newtonsFromPounds(2)).toBe(2 * NEWTONS_PER_POUND_FORCE);
});

it("agrees with itself: 144 lb/ft2 are 1 lb/in2, 12 lb over 12 ft are 1 lb/ft", () => {
  expect(pascalsFromPsf(144)).toBeCloseTo(pascalsFromPsi(1), 9);
  expect(newtonsFromPounds(12) / (12 * 0.3048)).toBeCloseTo(newtonsPerMeter(1), 12);
  expect(NEWTONS_PER_METER_PER_POUND_FOOT).toBeCloseTo(14.5939, 4);
});

it("knows 6 lb/ft2 as 287 Pa", () => expect(Math.round(pascalsFromPsf(6))).toBe(287));

it("turns degrees Fahrenheit into Celsius", () => {
  expect([32, 212, -40].map(celsiusFromFahrenheit)).toEqual([0, 100, -40]);
});
