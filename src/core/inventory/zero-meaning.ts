import { assumedUnit } from "./column-fit.ts";

/** Fields whose numbers have no unit. */
const COUNTS: ReadonlySet<string> = new Set(["levels", "lanes", "stems", "layer", "cables"]);
/** Fields in which a 0 can be true: a crown to the ground or over its trunk, sea level, a taut line, no dose, north, no shoulder. */
const ZERO_IS_TRUE: ReadonlySet<string> = new Set(
  "crown_base crown_offset crown_offset_direction lean lean_direction ground_z ground_z_1 ground_z_2 sag sag_temperature last_dose facing layer grade min_height shoulder_width median_width insulator_length".split(
    " ",
  ),
);

/** Whether a field holds numbers. */
export const isNumberField = (field: string): boolean => assumedUnit(field) !== null || COUNTS.has(field);

/** What a 0 means in a field where the column map says nothing; null for fields that hold no numbers. Common practice, no source. */
export const zeroMeaning = (field: string): "value" | "unknown" | null =>
  !isNumberField(field) ? null : ZERO_IS_TRUE.has(field) ? "value" : "unknown";
