import table from "./city-spread.json" with { type: "json" };
import { type Prediction, Z_90 } from "./equation.ts";

/** What a prediction rests on: the species' own equation, or the mean of its genus or of its type. */
export type AllometryLevel = "species" | "genus" | "type";

/** How trees of other cities differ, as standard deviations of a size's logarithm. */
export interface CitySpread {
  /** Of any tree. */
  readonly share: number;
  /** Times one over the dbh in centimeters, of thin stems, whose diameter says little; added as a variance. */
  readonly thinStemCm: number;
}

const SPREADS = table.spreads as unknown as Readonly<Record<AllometryLevel, readonly CitySpread[]>>;

/**
 * How much a tree of another city may differ from a prediction, for tree height, crown depth and crown width in this order.
 *
 * Counted from the Urban Tree Database itself, leaving out one city (for genus the species, for type the genus too) at a time:
 * docs/data-sources/make-city-spread.ts.
 */
export const citySpreadOf = (level: AllometryLevel, component: number): CitySpread => SPREADS[level][component]!;

/** A prediction for another city than those measured: its 90 % interval widened, as variances add, by how cities differ. */
export function elsewhere(prediction: Prediction, { share, thinStemCm }: CitySpread, dbhCm: number): Prediction {
  const { valueM, lowM, highM } = prediction;
  const city = Z_90 * Math.hypot(share, thinStemCm / Math.max(dbhCm, 1));
  return {
    valueM,
    lowM: valueM * Math.exp(-Math.hypot(Math.log(valueM / lowM), city)),
    highM: valueM * Math.exp(Math.hypot(Math.log(highM / valueM), city)),
  };
}
