import { metersFromFeet, metersFromInches } from "../../units/length.ts";
import { celsiusFromFahrenheit } from "../../units/temperature.ts";
import { sagByOtherSpanM } from "./ruling-span.ts";

export const COMMUNICATION_SAG_SOURCE = "CPUC General Order 95, Table 25, light loading";

/** Temperatures of the columns, degrees Fahrenheit, hottest first, and sags in inches by span in feet. */
const COLUMNS_F = [100, 80, 60, 40, 20] as const;
export const COMMUNICATION_SAGS: readonly (readonly [spanFt: number, sagsIn: readonly number[]])[] = [
  [100, [7, 6, 4.5, 4, 3.5]],
  [140, [14, 11, 9, 7.5, 6.5]],
  [180, [22, 18.5, 15.5, 13, 11]],
  [220, [32.5, 27.5, 23, 20, 16.5]],
  [260, [42, 37, 32, 27.5, 24]],
  [300, [56, 49, 42.5, 36.5, 32]],
];
const COLUMNS_C = COLUMNS_F.map(celsiusFromFahrenheit);
const ROWS = COMMUNICATION_SAGS.map(([spanFt, sagsIn]) => ({
  spanM: metersFromFeet(spanFt),
  sagsM: sagsIn.map(metersFromInches),
}));

/**
 * Stringing sag in meters of a communication wire by span and temperature: the table's value, linear between its rows and columns. A span
 * shorter or longer than the table's takes its end row by the square of the lengths; a temperature beyond takes the end column.
 */
export function communicationSagM(spanM: number, temperatureC: number): number {
  const last = ROWS.length - 1;
  const next = ROWS.findIndex((one) => spanM <= one.spanM);
  if (next <= 0) {
    const end = ROWS[next === 0 ? 0 : last]!;
    return sagByOtherSpanM(acrossColumns(end.sagsM, temperatureC), end.spanM, spanM);
  }
  const low = ROWS[next - 1]!;
  const high = ROWS[next]!;
  const share = (spanM - low.spanM) / (high.spanM - low.spanM);
  const lowM = acrossColumns(low.sagsM, temperatureC);
  return lowM + share * (acrossColumns(high.sagsM, temperatureC) - lowM);
}

function acrossColumns(sagsM: readonly number[], temperatureC: number): number {
  const colder = COLUMNS_C.findIndex((columnC) => temperatureC >= columnC);
  if (colder === 0) return sagsM[0]!;
  if (colder < 0) return sagsM[sagsM.length - 1]!;
  const share = (temperatureC - COLUMNS_C[colder]!) / (COLUMNS_C[colder - 1]! - COLUMNS_C[colder]!);
  return sagsM[colder]! + share * (sagsM[colder - 1]! - sagsM[colder]!);
}
