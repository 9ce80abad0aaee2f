// Source: California Public Utilities Commission, General Order 95, Table 25, stringing sags of communication conductors, light loading, read;
// inches at 100, 80, 60, 40 and 20 F, typed from the table.
import { expect, test } from "vitest";
import { communicationSagM } from "../../src/core/surroundings/conductors/communication-sag.ts";
import { METERS_PER_INCH, metersFromFeet } from "../../src/core/units/length.ts";
import { celsiusFromFahrenheit } from "../../src/core/units/temperature.ts";

test.each([
  [100, 7, 6, 4.5, 4, 3.5],
  [140, 14, 11, 9, 7.5, 6.5],
  [180, 22, 18.5, 15.5, 13, 11],
  [220, 32.5, 27.5, 23, 20, 16.5],
  [260, 42, 37, 32, 27.5, 24],
  [300, 56, 49, 42.5, 36.5, 32],
])("a span of %i ft has the sags printed", (spanFt, ...sagsIn) => {
  const found = [100, 80, 60, 40, 20].map(
    (temperatureF) => communicationSagM(metersFromFeet(spanFt), celsiusFromFahrenheit(temperatureF)) / METERS_PER_INCH,
  );
  // Table values are given back; 1e-9 in is rounding.
  for (const [at, sagIn] of sagsIn.entries()) expect(found[at]).toBeCloseTo(sagIn, 9);
});

test("between rows and columns the value is between: 120 ft at 70 F", () => {
  // ((6 + 4.5) / 2 + (11 + 9) / 2) / 2 = 7.625 in.
  const sagM = communicationSagM(metersFromFeet(120), celsiusFromFahrenheit(70));
  expect(sagM / METERS_PER_INCH).toBeCloseTo(7.625, 9);
});
