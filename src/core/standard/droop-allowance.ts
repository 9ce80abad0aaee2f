import type { ConflictKind } from "../model/terms.ts";
import type { DroopLoad } from "./droop-rule.ts";
import type { Standard } from "./standard.ts";

/**
 * How much lower in meters than measured the branches of a tree may hang over a kind of thing: leaf and rain together, or ice, whichever is
 * more; of several rules for one load the largest. 0 where the standard has no rule for it.
 *
 * Pruning frees this much above the minimum, so that the minimum still holds in leaf after rain or under a little ice. Ice that breaks limbs
 * is beyond it. The season of the survey is not known, so a deciduous tree always gets what leaves weigh.
 */
export function droopAllowanceM(
  standard: Standard,
  kind: ConflictKind,
  isEvergreen: boolean,
  hardinessZone: number | null,
): number {
  const mostOf = (load: DroopLoad): number =>
    standard.droopAllowances.reduce((mostM, rule) => {
      const holds =
        rule.load === load &&
        rule.kinds.includes(kind) &&
        (rule.appliesTo === "all" || (rule.appliesTo === "evergreen") === isEvergreen) &&
        (rule.upToZone === null || hardinessZone === null || hardinessZone <= rule.upToZone);
      return holds ? Math.max(mostM, rule.amountM) : mostM;
    }, 0);
  return Math.max(mostOf("leaf") + mostOf("rain"), mostOf("ice"));
}
