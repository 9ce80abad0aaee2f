import { expect, it } from "vitest";
import { resolveStandard } from "../../src/core/standard/resolve-standard.ts";
import { shippedStandard } from "../../src/core/standard/shipped-standards.ts";
import type { Standard } from "../../src/core/standard/standard.ts";

/**
 * Sources, all codes read: Milton-Freewater OR (2.5 to 8 ft above the street's center or curb; 25 ft along lot lines, 15 ft at alleys; one trunk up
 * to 10 in), Lindenhurst IL (2.5 to 10 ft above mean curb grade; 30 ft along the right-of-way, 50 ft at arterials and collectors; no exceptions), Holly MI
 * (2 to 8 ft above the center line; 25 ft along the right-of-way; two trunks up to 30 in).
 */
const FT = 0.3048;
const IN = 0.0254;

function standardOf(id: string): Standard {
  const resolved = resolveStandard(shippedStandard(id));
  if ("faults" in resolved) throw new Error(resolved.faults.join("; "));
  return resolved.standard;
}

it.each([
  ["corner-25-lot-line", 2.5, 8, 25, 25, 10 * IN, 1],
  ["corner-30-50-lot-line", 2.5, 10, 30, 50, 0, null],
  ["corner-25-two-trunks", 2, 8, 25, 25, 30 * IN, 2],
] as const)("%s says what its code says", (id, lowFt, highFt, localFt, collectorFt, maxWidthM, maxCount) => {
  const { sight, rules } = standardOf(id);
  expect(sight.method).toBe("corner");
  expect(sight.corner.line).toBe("lot-line");
  expect(sight.windowLowM).toBeCloseTo(lowFt * FT, 9);
  expect(rules.find((rule) => rule.id === sight.ruleId)?.minimumM).toBeCloseTo(highFt * FT, 9);
  expect(sight.corner.legMByClass["local-residential"] ?? sight.corner.legM).toBeCloseTo(localFt * FT, 9);
  for (const road of ["collector", "minor-arterial", "major-arterial"] as const)
    expect(sight.corner.legMByClass[road] ?? sight.corner.legM).toBeCloseTo(collectorFt * FT, 9);
  expect(sight.trunks.maxWidthM).toBeCloseTo(maxWidthM, 9);
  expect(sight.trunks.maxCount).toBe(maxCount);
});

it("has 15 ft at alleys where Milton-Freewater does", () => {
  expect(standardOf("corner-25-lot-line").sight.corner.drivewayLegM).toBeCloseTo(15 * FT, 9);
});
