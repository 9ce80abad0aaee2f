import { assumedUnit } from "../../core/inventory/column-fit.ts";
import type { ColumnUnit } from "../../core/model/column-map.ts";

/** Units that measure the same thing. */
const FAMILIES: readonly (readonly ColumnUnit[])[] = [
  ["m", "cm", "mm", "ft", "in"],
  ["km/h", "mph"],
  ["V", "kV"],
  ["C", "F"],
  ["N", "kN", "lb"],
  ["N/m", "kg/m", "lb/ft"],
  ["percent", "share"],
  ["degrees"],
];

/** Units that bare numbers of a field can be in; empty for fields without one. */
export function unitChoices(field: string): readonly ColumnUnit[] {
  const usual = assumedUnit(field);
  return usual === null ? [] : (FAMILIES.find((family) => family.includes(usual)) ?? [usual]);
}
