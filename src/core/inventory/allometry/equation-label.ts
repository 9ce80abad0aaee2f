import { isLogarithmic, type Prediction, Z_90 } from "./equation.ts";
import type { FittedEquation } from "./urban-equations.ts";

/** Cities measured for the database's regions (its table TS1). */
const CITIES: ReadonlyMap<string, string> = new Map([
  ["CenFla", "Orlando"],
  ["GulfCo", "Charleston"],
  ["InlEmp", "Claremont"],
  ["InlVal", "Modesto"],
  ["InterW", "Albuquerque"],
  ["LoMidW", "Indianapolis"],
  ["MidWst", "Minneapolis"],
  ["NMtnPr", "Fort Collins"],
  ["NoCalC", "Berkeley"],
  ["NoEast", "Queens"],
  ["PacfNW", "Longview"],
  ["Piedmt", "Charlotte"],
  ["SacVal", "Sacramento"],
  ["SoCalC", "Santa Monica"],
  ["SWDsrt", "Glendale"],
  ["TpIntW", "Boise"],
  ["Tropic", "Honolulu"],
]);

/** The regions that have equations, by the database's code. */
export const REGIONS: readonly string[] = [...CITIES.keys()];

/** A region with the city that was measured, for example `PacfNW (Longview)`. */
export const regionLabel = (region: string): string => `${region} (${CITIES.get(region) ?? region})`;

/**
 * What an estimate rests on: form of the equation, region, trees it was fitted to and the standard deviation of a tree about it, for example
 * `loglogw1 of PacfNW (Longview), 46 trees, sigma 0.18 of the logarithm`. Of several equations their number, regions and trees, and
 * the standard deviation in meters at this diameter, without the spread between cities.
 */
export function equationLabel(fitted: readonly FittedEquation[], here: Prediction, dbhCm: number): string {
  if (fitted.length === 1) {
    const { region, equation } = fitted[0]!;
    const { form, trees, spread, variancePower } = equation;
    const sigma = spread * Math.max(dbhCm, 1) ** (variancePower / 2);
    const sigmaText = isLogarithmic(form) ? `${figure(sigma)} of the logarithm` : `${figure(sigma)} m`;
    return `${form} of ${regionLabel(region)}, ${trees} trees, sigma ${sigmaText}`;
  }
  const regions = new Set(fitted.map(({ region }) => region)).size;
  const trees = fitted.reduce((sum, { equation }) => sum + equation.trees, 0);
  const sigma = (here.highM - here.lowM) / (2 * Z_90);
  return `mean of ${fitted.length} equations of ${regions} ${regions === 1 ? "region" : "regions"}, ${trees} trees, sigma ${figure(sigma)} m`;
}

const figure = (value: number): string => String(Number(value.toPrecision(2)));
