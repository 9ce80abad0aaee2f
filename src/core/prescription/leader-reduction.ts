import { radiusAtHeightM } from "../crown/crown.ts";
import { doseShare } from "../crown/dose.ts";
import { type Conflict, RAY_COUNT } from "../model/conflict.ts";
import { bearingOf, type Subject } from "./cut.ts";
import { limbShare } from "./limb.ts";
import { subjectDose } from "./subject-dose.ts";

/** What bringing leaders down below a line would come to. */
export interface LeaderReduction {
  /** Height in meters above ground that the leaders would be brought down to. */
  readonly toM: number;
  readonly doseShare: number;
  /** Whether the limbs there are thick enough to take over, by our estimate of limb sizes. */
  readonly hasLaterals: boolean;
}

/** A lateral that takes over from a leader is at least this share of it (Univ. of Florida, read). */
const LEAST_LATERAL_SHARE = 1 / 3;

/**
 * Directional reduction of the leaders of a tree that stands under lines: all above the lowest height that the lines' clear-to leaves free comes
 * off. An estimate for those who decide on site, never a prescription: whether there are laterals of a third to cut back to cannot be
 * known from an inventory, and without them it would be topping. Null where the crown does not begin below that height.
 */
export function leaderReduction(subject: Subject, lines: readonly Conflict[]): LeaderReduction | null {
  const { tree, crown } = subject;
  const toM = lines.reduce((lowest, { region }) => Math.min(lowest, region.lowM), Number.POSITIVE_INFINITY);
  if (!(toM > crown.crownBaseM && toM < crown.heightM)) return null;
  const region = {
    fromM: new Float64Array(RAY_COUNT),
    toM: new Float64Array(RAY_COUNT).fill(Number.POSITIVE_INFINITY),
    lowM: toM,
    highM: Number.POSITIVE_INFINITY,
  };
  let longestM = 0;
  for (let ray = 0; ray < RAY_COUNT; ray += 1) {
    longestM = Math.max(longestM, radiusAtHeightM(crown, toM, bearingOf(ray)));
  }
  return {
    toM,
    doseShare: doseShare(subjectDose(subject, [region])),
    hasLaterals: limbShare(tree, longestM) >= LEAST_LATERAL_SHARE,
  };
}
