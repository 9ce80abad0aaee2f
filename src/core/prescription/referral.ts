import type { Conflict } from "../model/conflict.ts";
import type { PruningOption, Referral } from "../model/prescription.ts";
import type { Defect } from "../model/terms.ts";
import type { Tree } from "../model/trees.ts";
import type { IsoDate } from "../units/calendar.ts";
import { formatDate } from "../units/format-date.ts";
import { type DisplayUnits, formatLength, formatShare } from "../units/format-length.ts";
import { listWords, thingsWords, thingWords } from "./conflict-words.ts";
import type { Cut } from "./cut.ts";
import { isHeadroom, isView, isWoody } from "./kinds.ts";

const LICENSED = "a licensed arborist";

/** Nearer than this to a wall or line is at it; our policy. */
const AT_THING_M = 0.05;

export const deadTree = (): Referral => ({
  code: "dead",
  reason: `The tree is reported dead, and pruning cannot help it: have ${LICENSED} confirm it, then remove it, or keep a safe part of it as habitat.`,
});

export const trunkInWay = (conflicts: readonly Conflict[]): Referral => ({
  code: "trunk-in-way",
  reason: `The trunk stands inside ${thingsWords(conflicts)} as mapped, which no pruning cures: check the position and the mapped width, then let ${LICENSED} weigh keeping the tree and marking it against removing it.`,
});

/** `down` is what bringing the leaders down below the line would come to. */
export function onlyTopWouldCure(down: PruningOption, units: DisplayUnits): Referral {
  return {
    code: "only-top-would-cure",
    reason: `Only cutting the top would clear the overhead line, and trees are not topped: ask the line's owner about insulating or moving the line, or replacing the tree by a lower species; line-clearance arborists decide on site whether any leader can be cut back to a lateral.${leaderWords(down, units)}`,
  };
}

function leaderWords({ leadersToM, doseShare, ruledOutBy }: PruningOption, units: DisplayUnits): string {
  if (leadersToM === undefined || doseShare <= 0) return "";
  const takes = `Bringing its leaders down to ${formatLength(leadersToM, units)} would take about ${formatShare(doseShare)} of the crown`;
  return ruledOutBy === null ? ` ${takes}.` : ` ${takes} and is ruled out: it ${ruledOutBy}.`;
}

/** `farthest` is how far staged visits would get for the first of the conflicts. */
export function doseBeyondLimits(
  conflicts: readonly Conflict[],
  limit: string | null,
  farthest: Cut | null,
  ceilingShare: number,
  units: DisplayUnits,
): Referral {
  const things = thingsWords(conflicts);
  const first = conflicts[0];
  const staged = `Staged visits taking at most ${formatShare(ceilingShare)}`;
  const reach =
    farthest === null || first === undefined
      ? ""
      : !isHeadroom(first.kind) && farthest.remedy !== "shorten"
        ? ` ${staged} would take the limbs toward ${thingWords(first)} up to a height of ${formatLength(farthest.belowM, units)}.`
        : !isHeadroom(first.kind) && farthest.targetM < AT_THING_M
          ? ` ${staged} would bring the branches back no farther than to ${thingWords(first)} itself.`
          : farthest.targetM >= first.clearToM
            ? ` ${staged} would reach ${formatLength(farthest.targetM, units)} at ${thingWords(first)}, which would not last a year.`
            : ` ${staged} would reach ${formatLength(Math.max(0, farthest.targetM), units)} of the ${formatLength(first.clearToM, units)} ${isHeadroom(first.kind) ? "wanted above" : "wanted beside"} ${thingWords(first)}.`;
  return {
    code: "dose-beyond-limits",
    reason: `Clearing ${things} would break the limits on pruning${limit === null ? "" : ` (${limit})`}.${reach} ${ownersWay(conflicts)}`,
  };
}

/** For what stands in a sight triangle itself, and can neither be raised out of the view nor kept below it within the limits. */
export function standsInView(
  tree: Tree,
  conflicts: readonly Conflict[],
  limit: string | null,
  units: DisplayUnits,
): Referral {
  const low = formatLength(Math.max(0, conflicts[0]?.region.lowM ?? 0), units);
  const why = limit === null ? "" : ` (${limit})`;
  const view = thingsWords(conflicts);
  return {
    code: "stands-in-view",
    reason: isWoody(tree)
      ? `It stands in ${view}, and raising its crown out of it would break the limits on pruning${why}. The owner and the traffic engineer can accept it, mark or slow the road, let ${LICENSED} open part of it, move the tree while it is small, or replace it by one that grows taller or by plants that stay below ${low}.`
      : `It stands in ${view}, and keeping it below ${low} would break the limits on pruning${why}. The owner can let ${LICENSED} renew it in stages, move it, or replace it by plants that stay below ${low}.`,
  };
}

/** What can be done instead. Nobody but a line's owner and line-clearance arborists works beside it. */
const ownersWay = (conflicts: readonly Conflict[]): string =>
  conflicts.some(({ kind }) => kind === "conductor")
    ? "Ask the line's owner and line-clearance arborists to decide on part of it, on insulating or moving the line, or on replacing the tree by a lower species."
    : `The owner can let ${LICENSED} decide on part of it, move or mark what is in the way, or replace the tree.`;

export const formWithoutRule = (tree: Tree, conflicts: readonly Conflict[], limit: string | null): Referral => ({
  code: "form-without-rule",
  reason: `No rule clears ${thingsWords(conflicts)} from this ${tree.form === "tree" ? "tree" : tree.form}${limit === null ? "" : `: ${limit}`}. Let ${LICENSED} decide, or replace it by a form that fits the place.`,
});

export function inspectFirst(tree: Tree, conflicts: readonly Conflict[]): Referral {
  const sizes: string[] = [];
  const ways = conflicts.filter((one) => isHeadroom(one.kind));
  if (ways.length > 0) sizes.push(`the free height under the branches over ${thingsWords(ways)}`);
  if (conflicts.some((conflict) => !isHeadroom(conflict.kind))) {
    sizes.push(`the free distance to ${thingsWords(conflicts.filter((one) => !isHeadroom(one.kind)))}`);
  }
  const estimated = [
    tree.height.basis === "measured" ? null : "height",
    tree.crownBase.basis === "measured" ? null : "crown base",
    tree.radius.basis === "measured" ? null : "crown radius",
  ].filter((size) => size !== null);
  // How an intersection is controlled is no size: what it is taken for is told.
  const controls = [
    ...new Set(
      conflicts.flatMap(({ kind, basis, doubt }) =>
        isView(kind) && basis === "assumed" && doubt !== null ? [doubt] : [],
      ),
    ),
  ];
  return {
    code: "inspect-first",
    reason: `A conflict is only possible, so nobody is sent to cut: measure ${listWords(sizes)}${estimated.length === 0 ? "" : `, and the tree's ${listWords(estimated)}`}.${controls.length === 0 ? "" : ` Confirm what the view rests on: ${controls.slice(0, 2).join(" ")}`}`,
  };
}

export const hazardBeforeAllowed = (date: IsoDate, reason: string): Referral => ({
  code: "hazard-before-allowed",
  reason: `A hazard is open, but no live wood may be taken before ${formatDate(date)} (${reason}): let ${LICENSED} decide whether to cut now, and mark or close the place meanwhile.`,
});

/** `months` are what the tree would need from planting. */
export const confirmPlantingDate = (date: IsoDate, months: number): Referral => ({
  code: "confirm-planting-date",
  reason: `A hazard is open, but no planting date is known and the stem is thin enough for a new planting, which keeps its live branches until ${formatDate(date)}: find out when it was planted. If that is more than ${months} months ago, enter the date and prune it now; if not, let ${LICENSED} decide whether to cut. Mark or close the place meanwhile.`,
});

export const strikeWithDefect = (defects: readonly Defect[]): Referral => ({
  code: "strike-with-defect",
  reason: `The tree is long enough to strike an overhead line if it fell, and ${listWords([...new Set(defects)].map((defect) => defect.split("-").join(" ")))} is reported: have a qualified tree risk assessor look at it, and tell the line's owner.`,
});

export const assessDecay = (): Referral => ({
  code: "assess-decay",
  reason: "Decay is reported, which pruning does not cure: have a qualified tree risk assessor look at it.",
});
