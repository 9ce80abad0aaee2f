// Source: California Public Utilities Commission, General Order 95, Appendix C (c), spans of unequal length strung at one tension: sags are as the
// squares of the spans; the rule and the example's first span read (300 ft, 5.30 ft), the example's other values cut off in the copy. General
// Order 64-A has the same rule with 4.90 ft. The values for 250 and 200 ft are arithmetic from the rule.
import { expect, test } from "vitest";
import { parabolaSagM, parabolaTensionN } from "../../src/core/crown/wire/parabola-sag.ts";
import { sagByOtherSpanM } from "../../src/core/surroundings/conductors/ruling-span.ts";
import { feetFromMeters, metersFromFeet } from "../../src/core/units/length.ts";

test.each([
  [5.3, 250, 3.681],
  [5.3, 200, 2.356],
  [4.9, 250, 3.403],
  [4.9, 200, 2.178],
])("a sag of %d ft in 300 ft is in %i ft one of %d ft", (sagFt, spanFt, wantedFt) => {
  const sagM = sagByOtherSpanM(metersFromFeet(sagFt), metersFromFeet(300), metersFromFeet(spanFt));
  // Stated to a thousandth of a foot.
  expect(Math.abs(feetFromMeters(sagM) - wantedFt)).toBeLessThan(0.0006);
  // The rule is the parabola's at one tension, whatever the load.
  const tensionN = parabolaTensionN(metersFromFeet(300), 4, metersFromFeet(sagFt));
  expect(parabolaSagM(metersFromFeet(spanFt), 4, tensionN)).toBeCloseTo(sagM, 12);
});
