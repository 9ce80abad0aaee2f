import type { ConflictRecord, TreeSetting } from "../model/conflict.ts";
import type { Prescription } from "../model/prescription.ts";
import { BASES, CERTAINTIES, CONFLICT_KINDS } from "../model/terms.ts";
import type { Tree } from "../model/trees.ts";
import { WORD_KINDS } from "../model/word.ts";
import type { Zone } from "../model/zone.ts";

export type FlatValue = string | number | boolean | null;

/** Meters to the millimeter, shares and angles to what can be told apart: enough digits, none that pretend. */
export function rounded(value: number, decimals: number): number {
  const power = POWERS_OF_TEN[decimals] ?? Number.NaN;
  const scaled = value * power;
  const whole = Math.round(scaled);
  // Away from a tie the product's own rounding decides nothing, and a quotient of whole numbers is the double nearest to the decimal.
  if (whole !== 0 && Math.abs(scaled) < EXACT && Math.abs(scaled - whole) < 0.5 - NEAR_TIE) return whole / power;
  return Number(value.toFixed(decimals));
}
const POWERS_OF_TEN = [1, 10, 100, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8];
/** Up to here a product with a power of ten is within {@link NEAR_TIE} of the true one: below 2^36 it is rounded by at most 2^-17. */
const EXACT = 2 ** 36;
const NEAR_TIE = 1e-4;
const meters = (value: number | null): number | null => (value === null ? null : rounded(value, 3));

/** The span nearest to the trunk of those that the tree is long enough to strike; null for none. */
export function strikeSpanOf(setting: TreeSetting): string | null {
  const within = (setting.spans ?? []).filter(({ canStrike }) => canStrike);
  if (within.length === 0) return null;
  return within.reduce((best, one) => (one.trunkDistanceM < best.trunkDistanceM ? one : best)).spanId;
}

/**
 * The flat members a tree feature gains in `trees.geojson`, in the order they are written; lengths in meters, doses in percent,
 * dates and windows in ISO 8601. The data dictionary in `docs/files.md` describes each.
 */
export function boughProperties(
  tree: Tree,
  prescription: Prescription,
  conflicts: readonly ConflictRecord[],
  setting: TreeSetting,
  zone: Zone | null,
): Record<string, FlatValue> {
  const next = prescription.visits[0];
  const kinds = CONFLICT_KINDS.filter((kind) => conflicts.some((conflict) => conflict.kind === kind));
  const surest = CERTAINTIES.find((certainty) => conflicts.some((conflict) => conflict.certainty === certainty));
  const worstBasis =
    BASES[Math.max(...[tree.height, tree.crownBase, tree.radius].map((size) => BASES.indexOf(size.basis)))];
  return {
    bough_conflicts: kinds.join(","),
    bough_not_checked: setting.notChecked.join(","),
    bough_urgency: prescription.urgency,
    bough_overdue: prescription.overdue,
    bough_certainty: surest ?? null,
    bough_remedy: prescription.remedy,
    bough_bearing_deg: prescription.bearingDeg === null ? null : rounded(prescription.bearingDeg, 1),
    bough_lift_m: meters(prescription.liftM),
    bough_lift_to_m: meters(prescription.liftToM),
    bough_shorten_m: meters(prescription.shortenM),
    bough_dose_pct: next === undefined ? null : rounded(next.doseShare * 100, 1),
    bough_dose_total_pct: prescription.visits.length === 0 ? null : rounded(prescription.doseTotalShare * 100, 1),
    bough_visits: prescription.visits.length,
    bough_due: next?.due ?? null,
    bough_window: next === undefined ? null : `${next.windowStart}/${next.windowEnd}`,
    bough_crew: next?.crew ?? null,
    bough_refer: prescription.refer?.reason ?? null,
    bough_zone: zone?.zoneId ?? null,
    bough_recorded: tree.worked === undefined ? null : `${tree.worked.outcome} ${tree.worked.on}`,
    bough_strike: strikeSpanOf(setting),
    bough_height_m: meters(tree.height.valueM),
    bough_crown_base_m: meters(tree.crownBase.valueM),
    bough_crown_radius_m: meters(tree.radius.valueM),
    bough_basis: worstBasis ?? "assumed",
    bough_why: prescription.why,
    bough_word: WORD_KINDS.filter((kind) => prescription.words?.some((word) => word.kind === kind)).join(",") || null,
  };
}
