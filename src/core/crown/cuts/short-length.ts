import type { DisplayUnits } from "../../units/format-length.ts";
import { METERS_PER_INCH } from "../../units/length.ts";

const FRACTIONS: ReadonlyMap<number, string> = new Map([
  [0.25, "1/4"],
  [0.5, "1/2"],
  [0.75, "3/4"],
]);

/** A distance along a limb for reading, to a quarter inch or half a centimeter: `3/4 in`, `12 in`, `2.5 cm`. */
export const shortLength = (lengthM: number, units: DisplayUnits): string => `${figure(lengthM, units)} ${unit(units)}`;

/** Two such distances: `6–12 in`, `15–30 cm`. */
export const shortRange = (fromM: number, toM: number, units: DisplayUnits): string =>
  `${figure(fromM, units)}–${figure(toM, units)} ${unit(units)}`;

const unit = (units: DisplayUnits): string => (units === "us" ? "in" : "cm");

function figure(lengthM: number, units: DisplayUnits): string {
  if (units === "metric") return String(lengthM < 0.1 ? Math.round(lengthM * 200) / 2 : Math.round(lengthM * 20) * 5);
  const inches = Math.round((lengthM / METERS_PER_INCH) * 4) / 4;
  const whole = Math.floor(inches);
  const rest = FRACTIONS.get(inches - whole);
  if (rest === undefined) return String(whole);
  return whole === 0 ? rest : `${whole} ${rest}`;
}
