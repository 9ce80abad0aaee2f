import { LOAD_CASES, type LoadCase, type LoadCaseId } from "../../model/load-cases.ts";
import { PASCALS_PER_POUND_SQUARE_FOOT } from "../../units/force.ts";
import type { DisplayUnits } from "../../units/format-length.ts";
import { KMH_PER_MPH, METERS_PER_INCH } from "../../units/length.ts";
import { CELSIUS_PER_FAHRENHEIT } from "../../units/temperature.ts";

/** Pressure in pascals of a wind of 1 m/s on a wire, 0.613 V^2; the same as 0.00256 V^2 lb/ft2 with mph (Clapp 1993, IEEE tutorial). */
const PASCALS_AT_1_M_S = 0.613;
const KMH_PER_M_S = 3.6;

/** The weather in which a wire is looked at, in the reader's units: `at rest at 54 °C`, `in a wind of 48 mph (6 lb/ft²) at 60 °F`. */
export function loadCaseWords(id: LoadCaseId, units: DisplayUnits): string {
  const { temperatureC, windPa, iceM }: LoadCase = LOAD_CASES[id];
  const degrees = units === "us" ? temperatureC / CELSIUS_PER_FAHRENHEIT + 32 : temperatureC;
  const at = `at ${Math.round(degrees)} °${units === "us" ? "F" : "C"}`;
  const wind = windPa > 0 ? `in a wind of ${windText(windPa, units)} ` : "";
  if (iceM > 0) return `with ${iceText(iceM, units)} of ice around it ${wind}${at}`;
  return `${wind === "" ? "at rest " : wind}${at}`;
}

/** In which load case a wire comes nearest to a crown, as a sentence. */
export const nearestCaseSentence = (id: LoadCaseId, units: DisplayUnits): string =>
  `Nearest with the wire ${loadCaseWords(id, units)}.`;

/** A wind's speed, to be pictured, with the pressure that is reckoned with. */
function windText(windPa: number, units: DisplayUnits): string {
  const speedKmh = Math.sqrt(windPa / PASCALS_AT_1_M_S) * KMH_PER_M_S;
  return units === "us"
    ? `${Math.round(speedKmh / KMH_PER_MPH)} mph (${Math.round(windPa / PASCALS_PER_POUND_SQUARE_FOOT)} lb/ft²)`
    : `${Math.round(speedKmh)} km/h (${Math.round(windPa)} Pa)`;
}

const iceText = (iceM: number, units: DisplayUnits): string =>
  units === "us" ? `${iceM / METERS_PER_INCH} in` : `${Math.round(iceM * 1000)} mm`;
