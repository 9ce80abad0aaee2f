import type { SourceFeature } from "../model/feature.ts";
import type { Radii, Size } from "../model/trees.ts";
import type { DbhRange } from "./allometry/expect-over-class.ts";
import type { FieldReader, LengthLimits, ReadLength, TreeField } from "./field-reader.ts";
import type { FindingLog } from "./finding-log.ts";
import { type ReadLengths, stemDiameter } from "./stem-diameter.ts";

/** The sizes that a tree's own columns give, after the implausible ones were set aside. */
export interface MeasuredSizes {
  readonly dbhM: number | null;
  /** Ends of the class that the stem was given as; null where it was given as a figure, or not at all. */
  readonly dbhClass: DbhRange | null;
  readonly height: Size | null;
  readonly crownBase: Size | null;
  readonly radius: Size | null;
  readonly radii: Radii | null;
  /** Number of stems that the diameter column lists; null where it gives one figure. */
  readonly stems: number | null;
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

// Limits of belief, our policy: the tallest street trees stay below 100 m, crowns below 50 m across.
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
  const length: ReadLengths = (field, limits) => {
    const found = read.lengthRangeM(feature, field, limits, setAside);
    if (found?.isClass === true) noteClass(field, feature, read, log);
    return found;
  };
  const { dbhM, dbhClass, stems } = stemDiameter(feature, read, log, length);
  let height = length("height", HEIGHT);
  let crownBase = length("crown_base", CROWN_BASE);
  const heightM = height?.valueM ?? null;
  const crownBaseM = crownBase?.valueM ?? null;

  // Of a class the thin end decides: what it allows is believed.
  const thinM = dbhClass?.lowM ?? dbhM;
  if (heightM !== null && dbhM !== null && thinM !== null && isTooLow(heightM, thinM)) {
    log.note(feature, {
      code: "height-too-low-for-dbh",
      severity: "warning",
      field: "height",
      value: heightM,
      reason: `A height of ${cut(heightM)} m is not believed of a stem ${cut(dbhM * 100)} cm thick; the height is set aside and estimated`,
      whatToDo: "Measure height and stem again",
    });
    setAside.add("height");
    height = null;
  }
  if (height !== null && heightM !== null && crownBaseM !== null && heightM - crownBaseM < LEAST_CROWN_DEPTH_M) {
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
    crownBase = null;
  }

  const crown = measuredRadius(length, read);
  return {
    dbhM,
    dbhClass,
    stems,
    height: height === null ? null : around(height, height.valueM * HEIGHT_ERROR, columnSource("height", height, read)),
    crownBase:
      crownBase === null ? null : around(crownBase, CROWN_BASE_ERROR_M, columnSource("crown_base", crownBase, read)),
    radius: crown?.radius ?? null,
    radii: crown?.radii ?? null,
    setAside,
  };
}

function noteClass(field: TreeField, feature: SourceFeature, read: FieldReader, log: FindingLog): void {
  log.tally({
    code: "size-from-class",
    severity: "info",
    field,
    what: `${field} given as a class; its middle is taken and its ends are the interval`,
    whatToDo: "Measure where the work depends on it",
    example: read.text(feature, field) ?? "",
  });
}

const columnSource = (field: TreeField, { isClass }: ReadLength, read: FieldReader): string =>
  `column ${read.columnOf(field)}${isClass ? ", a class" : ""}`;

/**
 * Crown radius from four quadrant radii, else the radius, else the spread, else one or two widths.
 *
 * A missing quadrant takes the mean of the others. The mean radius of two widths is a quarter of their sum; half the difference of
 * the two radii widens the interval, as nobody knows which way the longer one points.
 */
function measuredRadius(length: ReadLengths, read: FieldReader): { radius: Size; radii: Radii } | null {
  const quadrants = (["radius_n", "radius_e", "radius_s", "radius_w"] as const).map((field) => length(field, RADIUS));
  const given = quadrants.filter((radius) => radius !== null);
  if (given.length > 0) {
    const mean = meanOf(given);
    const [northM, eastM, southM, westM] = quadrants.map((radius) => radius?.valueM ?? mean.valueM);
    const source = `columns of ${given.length} quadrant ${given.length === 1 ? "radius" : "radii"}${mean.isClass ? ", classes" : ""}`;
    return {
      radius: around(mean, mean.valueM * RADIUS_ERROR, source),
      radii: { northM: northM!, eastM: eastM!, southM: southM!, westM: westM! },
    };
  }
  const radius = length("crown_radius", RADIUS);
  if (radius !== null) return round(radius, 0, columnSource("crown_radius", radius, read));
  const spread = length("crown_spread", WIDTH);
  if (spread !== null) return round(half(spread), 0, columnSource("crown_spread", spread, read));
  const first = length("crown_width_1", WIDTH);
  const second = length("crown_width_2", WIDTH);
  if (first === null && second === null) return null;
  if (first === null || second === null) {
    const [field, only] = first === null ? (["crown_width_2", second!] as const) : (["crown_width_1", first] as const);
    return round(half(only), 0, `${columnSource(field, only, read)}, one width only`);
  }
  const names = `columns ${read.columnOf("crown_width_1")} and ${read.columnOf("crown_width_2")}`;
  return round(half(meanOf([first, second])), Math.abs(first.valueM - second.valueM) / 4, names);
}

function meanOf(lengths: readonly ReadLength[]): ReadLength {
  const mean = (of: (one: ReadLength) => number): number =>
    lengths.reduce((sum, one) => sum + of(one), 0) / lengths.length;
  return {
    valueM: mean((one) => one.valueM),
    lowM: mean((one) => one.lowM),
    highM: mean((one) => one.highM),
    isClass: lengths.some((one) => one.isClass),
  };
}

const half = ({ valueM, lowM, highM, isClass }: ReadLength): ReadLength => ({
  valueM: valueM / 2,
  lowM: lowM / 2,
  highM: highM / 2,
  isClass,
});

function round(radius: ReadLength, moreM: number, source: string): { radius: Size; radii: Radii } {
  const { valueM } = radius;
  return {
    radius: around(radius, valueM * RADIUS_ERROR + moreM, source),
    radii: { northM: valueM, eastM: valueM, southM: valueM, westM: valueM },
  };
}

/** A measured size with its interval: the error of measuring, or the ends of the class where they are wider. */
const around = ({ valueM, lowM, highM }: ReadLength, errorM: number, source: string): Size => ({
  valueM,
  lowM: Math.max(0, Math.min(lowM, valueM - errorM)),
  highM: Math.max(highM, valueM + errorM),
  basis: "measured",
  source,
});

const isTooLow = (heightM: number, dbhM: number): boolean =>
  dbhM >= THICK_STEM_M && heightM < LEAST_HEIGHT_PER_DBH * dbhM;

/** A figure for a sentence: two decimals, none that say nothing. */
const cut = (value: number): number => Number(value.toFixed(2));
