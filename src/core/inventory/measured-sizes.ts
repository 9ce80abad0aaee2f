import type { SourceFeature } from "../model/feature.ts";
import type { Radii, Size } from "../model/trees.ts";
import type { FieldReader, LengthLimits, TreeField } from "./field-reader.ts";
import type { FindingLog } from "./finding-log.ts";

/** The sizes that a tree's own columns give, after the implausible ones were set aside. */
export interface MeasuredSizes {
  readonly dbhM: number | null;
  readonly height: Size | null;
  readonly crownBase: Size | null;
  readonly radius: Size | null;
  readonly radii: Radii | null;
  /** Fields whose value was set aside. */
  readonly setAside: ReadonlySet<TreeField>;
}

/** Half of the 90 % interval of sizes measured in the field: instrument and observer, our policy. */
const HEIGHT_ERROR = 0.1;
const RADIUS_ERROR = 0.1;
const CROWN_BASE_ERROR_M = 0.3;

/** A live crown shallower than this is taken for a slip of the pen; our policy. */
export const LEAST_CROWN_DEPTH_M = 0.3;

/** A stem this thick is not believed with a height under four times its diameter; our policy. */
const THICK_STEM_M = 0.6;
const LEAST_HEIGHT_PER_DBH = 4;

// Limits of belief, our policy: the tallest street trees stay below 100 m, stems below 5 m, crowns below 50 m across.
const DBH: LengthLimits = { leastM: 0.001, mostM: 5, zeroIsUnknown: true, why: "No stem is 0 or over 5 m thick" };
const HEIGHT: LengthLimits = {
  leastM: 0.5,
  mostM: 100,
  zeroIsUnknown: true,
  why: "A tree's height lies between 0.5 and 100 m",
};
const CROWN_BASE: LengthLimits = {
  leastM: 0,
  mostM: 100,
  zeroIsUnknown: false,
  why: "The base of a crown lies between 0 and 100 m",
};
const RADIUS: LengthLimits = {
  leastM: 0.05,
  mostM: 25,
  zeroIsUnknown: true,
  why: "A crown's radius lies between 0.05 and 25 m",
};
const WIDTH: LengthLimits = {
  leastM: 0.1,
  mostM: 50,
  zeroIsUnknown: true,
  why: "A crown's width lies between 0.1 and 50 m",
};

/** Reads a tree's measured sizes; a plausible value is never changed, an implausible one becomes a finding and is left out. */
export function measuredSizes(feature: SourceFeature, read: FieldReader, log: FindingLog): MeasuredSizes {
  const setAside = new Set<TreeField>();
  const length = (field: TreeField, limits: LengthLimits): number | null =>
    read.lengthM(feature, field, limits, setAside);
  const dbhM = length("dbh", DBH);
  let heightM = length("height", HEIGHT);
  let crownBaseM = length("crown_base", CROWN_BASE);

  if (heightM !== null && dbhM !== null && dbhM >= THICK_STEM_M && heightM < LEAST_HEIGHT_PER_DBH * dbhM) {
    log.note(feature, {
      code: "height-too-low-for-dbh",
      severity: "warning",
      field: "height",
      value: heightM,
      reason: `A height of ${cut(heightM)} m is not believed of a stem ${cut(dbhM * 100)} cm thick; the height is set aside and estimated`,
      whatToDo: "Measure height and stem again",
    });
    setAside.add("height");
    heightM = null;
  }
  if (heightM !== null && crownBaseM !== null && heightM - crownBaseM < LEAST_CROWN_DEPTH_M) {
    const isAbove = crownBaseM > heightM;
    log.note(feature, {
      code: isAbove ? "crown-base-above-top" : "crown-too-shallow",
      severity: "warning",
      field: "crown_base",
      value: crownBaseM,
      reason: `The crown base at ${cut(crownBaseM)} m lies ${isAbove ? "above" : `less than ${LEAST_CROWN_DEPTH_M} m below`} the top at ${cut(heightM)} m; the crown base is set aside and estimated`,
      whatToDo: "Measure crown base and height again",
    });
    setAside.add("crown_base");
    crownBaseM = null;
  }

  const crown = measuredRadius(length, read);
  return {
    dbhM,
    height: heightM === null ? null : around(heightM, heightM * HEIGHT_ERROR, `column ${read.columnOf("height")}`),
    crownBase:
      crownBaseM === null ? null : around(crownBaseM, CROWN_BASE_ERROR_M, `column ${read.columnOf("crown_base")}`),
    radius: crown?.radius ?? null,
    radii: crown?.radii ?? null,
    setAside,
  };
}

/**
 * Crown radius from four quadrant radii, else the radius, else the spread, else one or two widths.
 *
 * A missing quadrant takes the mean of the others. The mean radius of two widths is a quarter of their sum; half the difference of
 * the two radii widens the interval, as nobody knows which way the longer one points.
 */
function measuredRadius(
  length: (field: TreeField, limits: LengthLimits) => number | null,
  read: FieldReader,
): { radius: Size; radii: Radii } | null {
  const quadrants = (["radius_n", "radius_e", "radius_s", "radius_w"] as const).map((field) => length(field, RADIUS));
  const given = quadrants.filter((radiusM) => radiusM !== null);
  if (given.length > 0) {
    const meanM = given.reduce((sum, radiusM) => sum + radiusM, 0) / given.length;
    const [northM, eastM, southM, westM] = quadrants.map((radiusM) => radiusM ?? meanM);
    const source = `columns of ${given.length} quadrant ${given.length === 1 ? "radius" : "radii"}`;
    return {
      radius: around(meanM, meanM * RADIUS_ERROR, source),
      radii: { northM: northM!, eastM: eastM!, southM: southM!, westM: westM! },
    };
  }
  const radiusM = length("crown_radius", RADIUS);
  if (radiusM !== null) return round(radiusM, 0, `column ${read.columnOf("crown_radius")}`);
  const spreadM = length("crown_spread", WIDTH);
  if (spreadM !== null) return round(spreadM / 2, 0, `column ${read.columnOf("crown_spread")}`);
  const firstM = length("crown_width_1", WIDTH);
  const secondM = length("crown_width_2", WIDTH);
  if (firstM === null && secondM === null) return null;
  if (firstM === null || secondM === null) {
    const field = firstM === null ? "crown_width_2" : "crown_width_1";
    return round((firstM ?? secondM!) / 2, 0, `column ${read.columnOf(field)}, one width only`);
  }
  const names = `columns ${read.columnOf("crown_width_1")} and ${read.columnOf("crown_width_2")}`;
  return round((firstM + secondM) / 4, Math.abs(firstM - secondM) / 4, names);
}

function round(radiusM: number, moreM: number, source: string): { radius: Size; radii: Radii } {
  return {
    radius: around(radiusM, radiusM * RADIUS_ERROR + moreM, source),
    radii: { northM: radiusM, eastM: radiusM, southM: radiusM, westM: radiusM },
  };
}

const around = (valueM: number, errorM: number, source: string): Size => ({
  valueM,
  lowM: Math.max(0, valueM - errorM),
  highM: valueM + errorM,
  basis: "measured",
  source,
});

/** A figure for a sentence: two decimals, none that say nothing. */
const cut = (value: number): number => Number(value.toFixed(2));
