import { liveCrownRatio } from "../crown/crown.ts";
import { type Dose, doseShare } from "../crown/dose.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { formatShare } from "../units/format-length.ts";
import type { Cut, LeadersDown, Subject } from "./cut.ts";
import { isConifer, isWoody } from "./kinds.ts";
import { LARGEST_LIMB_SHARE } from "./limb.ts";

export interface RuledOut {
  /** `brief`: within the limits, but it would not last as long as a visit is worth. */
  readonly limit: "dose" | "live-crown" | "limb" | "form" | "brief";
  /** In words. */
  readonly reason: string;
}

/** Conifers are not cut back deeper than this share of a limb, where they carry no needles; our policy. */
export const CONIFER_DEPTH_SHARE = 1 / 3;
/** Rounding in sums of shares; a dose that equals its limit is allowed. */
const ROUNDING = 1e-9;

/** The first limit that a set of cuts breaks; null when they keep all. `liveAfter` is the live crown ratio that they leave. */
export function limitBroken(
  subject: Subject,
  cuts: readonly Cut[],
  dose: Dose,
  liveAfter: number,
  limitShare: number,
  standard: Standard,
): RuledOut | null {
  return (
    formLimit(subject, cuts) ??
    liveCrownLimit(subject, liveAfter, standard) ??
    limbLimit(subject, cuts) ??
    doseLimitBroken(dose, limitShare)
  );
}

function formLimit(subject: Subject, cuts: readonly Cut[]): RuledOut | null {
  const { tree, crown } = subject;
  if (!isWoody(tree) && cuts.some((cut) => cut.remedy !== "shorten")) {
    return { limit: "form", reason: "shrubs and hedges are trimmed at the side or kept low, never lifted" };
  }
  if (isWoody(tree) && cuts.some(({ leaders }) => leaders !== undefined && !mayComeDown(tree, leaders))) {
    return {
      limit: "form",
      reason:
        "would be topping: by our estimate there are no laterals a third as thick that could take over from the leaders",
    };
  }
  if (tree.form === "palm") {
    const horizontalM = (crown.heightM + crown.crownBaseM) / 2;
    if (cuts.some((cut) => cut.remedy === "shorten" || cut.belowM > horizontalM)) {
      return { limit: "form", reason: "palms lose only whole fronds below the horizontal" };
    }
  }
  if (isConifer(tree) && cuts.some((cut) => cut.shortenShare > CONIFER_DEPTH_SHARE + ROUNDING)) {
    return { limit: "form", reason: "conifers are not cut back into bare wood: deeper than a third of the branch" };
  }
  return null;
}

/** Conifers and palms have one leader, and a cone too few limbs near its top. */
const mayComeDown = (tree: Tree, { hasLaterals }: LeadersDown): boolean =>
  hasLaterals && tree.form === "tree" && !isConifer(tree);

function liveCrownLimit(subject: Subject, after: number, standard: Standard): RuledOut | null {
  const { tree, crown } = subject;
  if (!isWoody(tree) || tree.form === "palm") return null;
  const before = liveCrownRatio(crown.heightM, crown.crownBaseM);
  const least = Math.min(before, standard.pruning.liveCrownRatio);
  if (after >= least - ROUNDING) return null;
  return {
    limit: "live-crown",
    reason:
      after > 0
        ? `would leave live crown on ${formatShare(after)} of the height; at least ${formatShare(least)} must stay`
        : `would leave no live crown; at least ${formatShare(least)} of the height must stay`,
  };
}

function limbLimit(subject: Subject, cuts: readonly Cut[]): RuledOut | null {
  if (!isWoody(subject.tree) || subject.tree.form === "palm") return null;
  if (cuts.every((cut) => cut.limbShare <= LARGEST_LIMB_SHARE + ROUNDING)) return null;
  return { limit: "limb", reason: "would take limbs thicker than half the stem, by our estimate of limb size" };
}

function doseLimitBroken(dose: Dose, limitShare: number): RuledOut | null {
  if (doseShare(dose) <= limitShare + ROUNDING) return null;
  return {
    limit: "dose",
    reason: `takes ${formatShare(doseShare(dose))} of the live crown; at most ${formatShare(limitShare)} is allowed in one season`,
  };
}
