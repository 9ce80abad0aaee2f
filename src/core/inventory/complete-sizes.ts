import type { Form } from "../model/terms.ts";
import type { Radii, Size, SpeciesTraits } from "../model/trees.ts";
import type { Allometry, AllometryName, ExpectedSizes } from "./allometry/allometry.ts";
import { expectOverClass } from "./allometry/expect-over-class.ts";
import { typeMedians } from "./allometry/urban-equations.ts";
import type { InventoryMedians, Median, MedianOf } from "./inventory-medians.ts";
import { LEAST_CROWN_DEPTH_M, type MeasuredSizes } from "./measured-sizes.ts";

export interface CompleteSizes {
  readonly height: Size;
  readonly crownBase: Size;
  readonly radius: Size;
  readonly radii: Radii;
}

/** All that a tree's missing sizes are made from. */
export interface SizeContext {
  readonly traits: SpeciesTraits;
  readonly allometryName: AllometryName;
  readonly form: Form;
  readonly allometry: Allometry;
  readonly medians: InventoryMedians;
}

const RADIUS_FIELDS = [
  "radius_n",
  "radius_e",
  "radius_s",
  "radius_w",
  "crown_radius",
  "crown_spread",
  "crown_width_1",
  "crown_width_2",
] as const;

/** Half of the interval of an assumed size; our policy. */
const ASSUMED_ERROR = 0.5;

/** A hedge or shrub of which nothing was measured, in an inventory without others: height and radius in meters, crown to the ground; our policy. */
const LOW_FORM = { heightM: 2, radiusM: 1 };

/**
 * All sizes of a tree: measured ones unchanged, missing ones from published allometry where the stem diameter is known, else from
 * medians of the inventory's own measured trees as shares of the height, else from the allometry database's medians by type.
 *
 * Where neither diameter nor height is known the height is the median of like trees: basis `assumed`, half as much again either way.
 * Palms, hedges and shrubs have no allometry. The crown is at least 0.3 m deep; intervals are kept in order around the value.
 */
export function completeSizes(measured: MeasuredSizes, context: SizeContext): CompleteSizes {
  const isLow = context.form === "hedge" || context.form === "shrub";
  const expected =
    measured.dbhM === null || isLow
      ? null
      : expectOverClass(context.allometry, context.allometryName, measured.dbhM, measured.dbhClass);
  const height = measured.height ?? withNote(heightFrom(expected, measured, context), measured.setAside.has("height"));
  const crownBase =
    measured.crownBase ?? withNote(baseFrom(expected, height, context), measured.setAside.has("crown_base"));
  if (measured.radius !== null && measured.radii !== null) {
    return { height, crownBase, radius: measured.radius, radii: measured.radii };
  }
  const isRefused = RADIUS_FIELDS.some((field) => measured.setAside.has(field));
  const radius = withNote(radiusFrom(expected, height, context), isRefused);
  const { valueM } = radius;
  return { height, crownBase, radius, radii: { northM: valueM, eastM: valueM, southM: valueM, westM: valueM } };
}

function heightFrom(expected: ExpectedSizes | null, measured: MeasuredSizes, context: SizeContext): Size {
  // A measured crown base outranks the estimate: the top must clear it by the expected depth of the crown.
  const baseM = measured.crownBase?.valueM ?? 0;
  if (expected !== null) {
    const { height, crownDepth } = expected;
    if (height.valueM - baseM >= LEAST_CROWN_DEPTH_M) return sized(height, "estimated", height.source);
    const lift = baseM + crownDepth.valueM - height.valueM;
    const lifted = { valueM: height.valueM + lift, lowM: height.lowM, highM: height.highM + lift };
    return sized(lifted, "estimated", `${height.source}, above the measured crown base`);
  }
  const isLow = context.form === "hedge" || context.form === "shrub";
  const own = context.medians.find("height", context.traits, context.form);
  const valueM = own?.value ?? (isLow ? LOW_FORM.heightM : typeMedians(context.allometryName.type).heightM);
  const source =
    own?.source ?? (isLow ? "our policy for hedges and shrubs" : "median of its type in the Urban Tree Database");
  return assumed(Math.max(valueM, baseM + LEAST_CROWN_DEPTH_M), source);
}

function baseFrom(expected: ExpectedSizes | null, height: Size, context: SizeContext): Size {
  const most = height.valueM - Math.min(LEAST_CROWN_DEPTH_M, height.valueM / 2);
  if (context.form === "hedge" || context.form === "shrub") {
    return {
      valueM: 0,
      lowM: 0,
      highM: most / 2,
      basis: "assumed",
      source: "our policy for hedges and shrubs: leafy to the ground",
    };
  }
  if (expected !== null) {
    const scale = height.valueM / expected.height.valueM;
    const base = {
      valueM: height.valueM - expected.crownDepth.valueM * scale,
      lowM: height.valueM - expected.crownDepth.highM * scale,
      highM: height.valueM - expected.crownDepth.lowM * scale,
    };
    const { crownDepth } = expected;
    const source =
      height.basis === "measured" ? `${crownDepth.source}, in proportion to the height` : crownDepth.source;
    return within(sized(base, "estimated", source), 0, most);
  }
  const share = shareOf("base-share", context);
  return within(fromShare(share, height), 0, most);
}

function radiusFrom(expected: ExpectedSizes | null, height: Size, context: SizeContext): Size {
  if (expected !== null) return sized(expected.radius, "estimated", expected.radius.source);
  const isLow = context.form === "hedge" || context.form === "shrub";
  if (isLow && context.medians.find("radius-share", context.traits, context.form) === null) {
    return assumed(LOW_FORM.radiusM, "our policy for hedges and shrubs");
  }
  return fromShare(shareOf("radius-share", context), height);
}

function shareOf(of: Exclude<MedianOf, "height">, context: SizeContext): Median {
  const own = context.medians.find(of, context.traits, context.form);
  if (own !== null) return own;
  const medians = typeMedians(context.allometryName.type);
  const value = of === "base-share" ? medians.baseShare : medians.radiusShare;
  return {
    value,
    low: value * (1 - ASSUMED_ERROR),
    high: value * (1 + ASSUMED_ERROR),
    source: "median of its type in the Urban Tree Database",
  };
}

/** A size as a share of the height: estimated where the height was measured, assumed with its wide interval where that was assumed too. */
function fromShare(share: Median, height: Size): Size {
  const valueM = share.value * height.valueM;
  if (height.basis === "assumed") return assumed(valueM, share.source);
  const source = `${share.source}, as a share of the height`;
  return sized(
    { valueM, lowM: share.low * height.valueM, highM: share.high * height.valueM },
    height.basis === "measured" ? "estimated" : height.basis,
    source,
  );
}

const assumed = (valueM: number, source: string): Size => ({
  valueM,
  lowM: valueM * (1 - ASSUMED_ERROR),
  highM: valueM * (1 + ASSUMED_ERROR),
  basis: "assumed",
  source,
});

function sized(
  range: { readonly valueM: number; readonly lowM: number; readonly highM: number },
  basis: Size["basis"],
  source: string,
): Size {
  return {
    valueM: range.valueM,
    lowM: Math.min(range.lowM, range.valueM),
    highM: Math.max(range.highM, range.valueM),
    basis,
    source,
  };
}

const within = (size: Size, leastM: number, mostM: number): Size => ({
  ...size,
  valueM: clamp(size.valueM, leastM, mostM),
  lowM: clamp(size.lowM, leastM, mostM),
  highM: clamp(size.highM, leastM, mostM),
});

const clamp = (value: number, least: number, most: number): number => Math.min(Math.max(value, least), most);

const withNote = (size: Size, isReplaced: boolean): Size =>
  isReplaced ? { ...size, source: `${size.source} (the given value was set aside)` } : size;
