import type { SourceFeature } from "../model/feature.ts";
import { parseAngleDeg, parseBearingDeg } from "../units/parse-bearing.ts";
import type { FieldReader, LengthLimits, TreeField } from "./field-reader.ts";
import type { FindingLog } from "./finding-log.ts";

/** What an inventory says of a crown that does not stand over its trunk. */
export interface CrownPlace {
  /** Distance in meters from the trunk's foot to the crown's axis; null where not given. */
  readonly offsetM: number | null;
  /** Lean of the stem from the vertical, degrees; null where not given. */
  readonly leanDeg: number | null;
  /** Bearing of the crown from the trunk, that of the lean where the offset has none; null where not given. */
  readonly bearingDeg: number | null;
}

const OFFSET: LengthLimits = {
  leastM: 0,
  mostM: 25,
  zeroIsUnknown: false,
  why: "A crown's axis stands at most 25 m from its trunk's foot",
};
/** A stem that leans more lies rather than stands; our policy. */
const MOST_LEAN_DEG = 60;

/** Reads where a crown stands; an offset outranks a lean. Words that are neither degrees nor a compass point are counted in a finding. */
export function readCrownPlace(feature: SourceFeature, read: FieldReader, log: FindingLog): CrownPlace {
  const offsetM = read.lengthM(feature, "crown_offset", OFFSET);
  const understood = (field: TreeField, parse: (text: string) => number | null): number | null => {
    const text = read.text(feature, field);
    if (text === null) return null;
    const value = parse(text);
    if (value === null) {
      log.tally({
        code: "lean-not-understood",
        severity: "warning",
        field,
        what: `${field} in words that are neither degrees nor a compass point; not used`,
        whatToDo: "Translate the city's words in the column map",
        example: text,
      });
    }
    return value;
  };
  const leanDeg = understood("lean", parseAngleDeg);
  const isLean = leanDeg !== null && leanDeg >= 0 && leanDeg <= MOST_LEAN_DEG;
  if (leanDeg !== null && !isLean) {
    log.note(feature, {
      code: "implausible-value",
      severity: "warning",
      field: "lean",
      value: leanDeg,
      reason: `A stem leans from 0 to ${MOST_LEAN_DEG} degrees from the vertical; the value is set aside and treated as unknown`,
      whatToDo: `Measure again, or check that column ${read.columnOf("lean")} counts from the vertical`,
    });
  }
  const isBeside = offsetM !== null || isLean;
  const offsetDeg = offsetM === null ? null : understood("crown_offset_direction", parseBearingDeg);
  return {
    offsetM,
    leanDeg: isLean ? leanDeg : null,
    bearingDeg: offsetDeg ?? (isBeside ? understood("lean_direction", parseBearingDeg) : null),
  };
}
