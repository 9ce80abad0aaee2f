import type { Allometry, AllometryName, ExpectedSize, ExpectedSizes } from "./allometry.ts";

/** The ends of a class of stem diameters in meters. */
export interface DbhRange {
  readonly lowM: number;
  readonly highM: number;
}

/**
 * Sizes expected of a stem of which only a class is known: those at the middle, their 90 % intervals widened, as variances add, by how
 * far the sizes expected at the ends of the class lie from it. As {@link Allometry.expect} where there is no class.
 *
 * The ends of a class hold all of its trees and are taken for nine in ten of them, which is on the wide side.
 */
export function expectOverClass(
  allometry: Allometry,
  name: AllometryName,
  dbhM: number,
  range: DbhRange | null,
): ExpectedSizes | null {
  const middle = allometry.expect(name, dbhM);
  if (middle === null || range === null) return middle;
  const thin = allometry.expect(name, Math.max(range.lowM, LEAST_STEM_M))!;
  const thick = allometry.expect(name, range.highM)!;
  return {
    height: over(middle.height, thin.height, thick.height),
    crownDepth: over(middle.crownDepth, thin.crownDepth, thick.crownDepth),
    radius: over(middle.radius, thin.radius, thick.radius),
  };
}

/** Open classes begin at 0, where no equation holds. */
const LEAST_STEM_M = 0.01;

function over(middle: ExpectedSize, thin: ExpectedSize, thick: ExpectedSize): ExpectedSize {
  const { valueM, lowM, highM, source } = middle;
  const below = Math.max(0, valueM - Math.min(thin.valueM, thick.valueM));
  const above = Math.max(0, Math.max(thin.valueM, thick.valueM) - valueM);
  return {
    valueM,
    lowM: Math.max(valueM / 10, valueM - Math.hypot(valueM - lowM, below)),
    highM: valueM + Math.hypot(highM - valueM, above),
    source: `${source}; of the class's middle`,
  };
}
