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
  /** Bearing of the one that counts; null where not given. */
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
  const bearingOf = (field: TreeField): number | null => understood(field, parseBearingDeg);
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
  if (offsetM !== null) return { offsetM, leanDeg: null, bearingDeg: bearingOf("crown_offset_direction") };
  const leanDeg = understood("lean", parseAngleDeg);
  if (leanDeg !== null && !(leanDeg >= 0 && leanDeg <= MOST_LEAN_DEG)) {
    log.note(feature, {
      code: "implausible-value",
      severity: "warning",
      field: "lean",
      value: leanDeg,
      reason: `A stem leans from 0 to ${MOST_LEAN_DEG} degrees from the vertical; the value is set aside and treated as unknown`,
      whatToDo: `Measure again, or check that column ${read.columnOf("lean")} counts from the vertical`,
    });
    return { offsetM, leanDeg: null, bearingDeg: null };
  }
  return { offsetM, leanDeg, bearingDeg: leanDeg === null ? null : bearingOf("lean_direction") };
}
