import type { SourceFeature } from "../model/feature.ts";
import type { DbhRange } from "./allometry/expect-over-class.ts";
import type { FieldReader, LengthLimits, ReadLength, TreeField } from "./field-reader.ts";
import type { FindingLog } from "./finding-log.ts";
import { equivalentDiameterM } from "./stem-list.ts";

export interface StemDiameter {
  readonly dbhM: number | null;
  /** Ends of the class that the stem was given as; null where it was given as a figure, or not at all. */
  readonly dbhClass: DbhRange | null;
  /** Number of stems that the column lists; null where it gives one figure. */
  readonly stems: number | null;
}

/** Reads a length within limits; a value that cannot be used is null and a finding. */
export type ReadLengths = (field: TreeField, limits: LengthLimits) => ReadLength | null;

// Limits of belief, our policy.
const DBH: LengthLimits = { leastM: 0.001, mostM: 5, zeroIsUnknown: true, why: "No stem is 0 or over 5 m thick" };
const GIRTH: LengthLimits = {
  leastM: 0.004,
  mostM: 16,
  zeroIsUnknown: true,
  why: "No stem measures 0 or over 16 m around",
};

/**
 * The stem's diameter at breast height from its own column, else from the girth divided by π. Of a list of stems it is the diameter of
 * one stem of the same cross-section, with how many they are; of a class the middle, with its ends.
 */
export function stemDiameter(
  feature: SourceFeature,
  read: FieldReader,
  log: FindingLog,
  length: ReadLengths,
): StemDiameter {
  const byDiameter = stemIn("dbh", DBH, feature, read, log, length);
  if (byDiameter.dbhM !== null) return byDiameter;
  const { dbhM: girthM, dbhClass: girthClass, stems } = stemIn("girth", GIRTH, feature, read, log, length);
  if (girthM === null) return byDiameter;
  log.tally({
    code: "dbh-from-girth",
    severity: "info",
    field: "girth",
    what: "the stem's diameter is its girth divided by 3.1416",
    whatToDo: "Nothing, unless the column is a diameter",
  });
  const dbhClass = girthClass === null ? null : { lowM: girthClass.lowM / Math.PI, highM: girthClass.highM / Math.PI };
  return { dbhM: girthM / Math.PI, dbhClass, stems };
}

function stemIn(
  field: "dbh" | "girth",
  limits: LengthLimits,
  feature: SourceFeature,
  read: FieldReader,
  log: FindingLog,
  length: ReadLengths,
): StemDiameter {
  const stemsM = read.stemsM(feature, field);
  const dbhM = stemsM === null ? null : equivalentDiameterM(stemsM);
  if (stemsM === null || dbhM === null || dbhM < limits.leastM || dbhM > limits.mostM) {
    const found = length(field, limits);
    const dbhClass = found?.isClass === true ? { lowM: found.lowM, highM: found.highM } : null;
    return { dbhM: found?.valueM ?? null, dbhClass, stems: null };
  }
  log.tally({
    code: "stems-summed",
    severity: "info",
    field,
    what: "diameters of several stems; the diameter of one stem of the same cross-section is taken, the root of the sum of squares",
    whatToDo: "Nothing, unless the figures are something else than stems",
  });
  return { dbhM, dbhClass: null, stems: stemsM.length };
}
