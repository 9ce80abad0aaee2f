import type { SourceFeature } from "../../model/feature.ts";
import { parseDecimal } from "../../units/parse-length.ts";
import type { Gathering } from "../gathering.ts";
import { readLengthM, readTag, readValue, textOf } from "../read-value.ts";

/** What a road's record says that only sight lines need. */
export interface RoadSightDetails {
  /** Percent by which the road rises along its line; null when unknown. */
  readonly gradePercent: number | null;
  /** Width in meters of a median drawn into the one line; 0 when there is none. */
  readonly medianM: number;
  /** Lanes with and against the line; null when unknown. */
  readonly lanesForward: number | null;
  readonly lanesBackward: number | null;
}

/** Steepest street that is believed, percent; more is a slip of units. */
const MAX_GRADE_PERCENT = 40;

/**
 * Grade, median and lanes by direction: OpenStreetMap's `incline` (a number with %), and `lanes:forward`, `lanes:backward`; columns `grade` (percent,
 * rising along the line) and `median_width` (meters, or with a unit).
 */
export function roadSightDetails(gathering: Gathering, feature: SourceFeature): RoadSightDetails {
  return {
    gradePercent: gradeOf(readValue(gathering.columns, "roads", "grade", feature, "incline")),
    medianM: readLengthM(gathering.columns, "roads", "median_width", feature) ?? 0,
    lanesForward: countOf(readTag(feature, "lanes:forward")),
    lanesBackward: countOf(readTag(feature, "lanes:backward")),
  };
}

function gradeOf(value: unknown): number | null {
  const percent = typeof value === "number" ? value : parseDecimal((textOf(value) ?? "").replace("%", "").trim());
  return percent !== null && Math.abs(percent) <= MAX_GRADE_PERCENT ? percent : null;
}

function countOf(value: unknown): number | null {
  const count = typeof value === "number" ? value : parseDecimal(textOf(value) ?? "");
  return count !== null && count >= 1 && count <= 20 ? Math.floor(count) : null;
}
