import type { Finding } from "../model/finding.ts";
import type { FieldReader, TreeField } from "./field-reader.ts";
import type { MeasuredSizes } from "./measured-sizes.ts";

/** Below this many values a median says little; our policy. */
const LEAST_VALUES = 10;

// What the middle tree of an inventory can be; our policy. Of the 14,487 street trees behind the Urban Tree Database the middle dbh is near
// 30 cm and the middle height near 10 m (from memory).
const MEDIAN_DBH_M = { least: 0.03, most: 1.5 };
const MEDIAN_HEIGHT_M = { least: 1, most: 35 };
/** Height over diameter of the middle tree; open-grown trees of the cities known stay near 40, and inches read as centimeters make it 2.5 times that. */
const MOST_SLENDERNESS = 100;

/**
 * Doubts about the units of whole columns, from the middle of their values: a dbh in millimeters, inches or meters, heights in feet. Nothing
 * is changed for them. `readings` are what single trees gave.
 */
export function unitDoubts(readings: readonly MeasuredSizes[], read: FieldReader, file: string | null): Finding[] {
  const dbh = median(readings.flatMap(({ dbhM }) => (dbhM === null ? [] : [dbhM])));
  const height = median(readings.flatMap((one) => (one.height === null ? [] : [one.height.valueM])));
  const slenderness = median(
    readings.flatMap((one) => (one.height === null || one.dbhM === null ? [] : [one.height.valueM / one.dbhM])),
  );
  const findings: Finding[] = [];
  const doubt = (field: TreeField, value: string, looksLike: string): void => {
    const named = read.isUnitNamed(field) ? "the unit given" : "the unit assumed";
    findings.push({
      code: `${field}-unit-doubtful`,
      severity: "warning",
      layer: "trees",
      file,
      feature: null,
      field,
      value,
      reason: `The middle ${field} is ${value} in ${named}; it looks like ${looksLike}. Nothing was changed.`,
      whatToDo: `Say the unit of column ${read.columnOf(field).slice(0, 60)} in the column map.`,
    });
  };
  const dbhText = dbh === null ? "" : `${Number((dbh * 100).toPrecision(3))} cm`;
  if (dbh !== null && dbh > MEDIAN_DBH_M.most) doubt("dbh", dbhText, "millimeters");
  else if (dbh !== null && dbh < MEDIAN_DBH_M.least) doubt("dbh", dbhText, "meters, or feet");
  else if (dbh !== null && slenderness !== null && slenderness > MOST_SLENDERNESS) {
    doubt("dbh", dbhText, `inches: the middle tree would be ${Math.round(slenderness)} times as high as thick`);
  }
  const heightText = height === null ? "" : `${Number(height.toPrecision(3))} m`;
  if (height !== null && height > MEDIAN_HEIGHT_M.most) doubt("height", heightText, "feet");
  else if (height !== null && height < MEDIAN_HEIGHT_M.least) doubt("height", heightText, "another unit");
  return findings;
}

/** The middle value, the upper of two; null for fewer than ten. */
function median(values: readonly number[]): number | null {
  if (values.length < LEAST_VALUES) return null;
  return Float64Array.from(values).sort()[Math.floor(values.length / 2)]!;
}
