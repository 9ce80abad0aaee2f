import type { Conflict } from "../model/conflict.ts";
import type { Referral } from "../model/prescription.ts";
import type { ConflictKind } from "../model/terms.ts";
import type { Tree } from "../model/trees.ts";
import { formatDate } from "../units/format-date.ts";
import { type DisplayUnits, formatShare } from "../units/format-length.ts";
import { formatYears, numberWords } from "../units/format-years.ts";
import { causeWords } from "./cause-words.ts";
import { kindsWords, sideWords } from "./conflict-words.ts";
import type { Earliest } from "./earliest-date.ts";
import { isHeadroom, isWoody } from "./kinds.ts";
import type { Candidate } from "./options.ts";
import { type StageCuts, totalDoseShare } from "./stages.ts";

/** What was found and what cures it, in two plain sentences, for a resident; `stages` are the visits the cure itself takes. */
export function whyPrescribed(
  tree: Tree,
  conflicts: readonly Conflict[],
  chosen: Candidate,
  stages: readonly StageCuts[],
  interim: { readonly untilYear: number | null } | null,
  units: DisplayUnits,
): string {
  const main = conflicts[0]!;
  const { option } = chosen;
  const others = new Set(conflicts).size - 1;
  // Two sentences at most: further conflicts are counted in the second one.
  const joined = others === 0 ? "" : `, with ${numberWords(others)} more conflict${others === 1 ? "" : "s"},`;
  const doseShare = totalDoseShare(stages);
  const share = doseShare < 0.005 ? "less than 1 %" : `about ${formatShare(doseShare)}`;
  const takes = `${actionWords(tree, main, chosen)}${joined} takes ${share} of the crown`;
  const cause = causeWords(main, tree, units);
  if (interim !== null) {
    const until =
      interim.untilYear === null
        ? "its species may never be tall enough for the full height"
        : `the rest follows when it is tall enough, about ${interim.untilYear}`;
    return `${cause} ${takes} for now; the tree is young, and ${until}.`;
  }
  const over = stages.length > 1 ? ` over ${numberWords(stages.length)} visits` : "";
  return `${cause} ${takes}${over} and should last ${formatYears(option.lastsYears)}.`;
}

function actionWords(tree: Tree, main: Conflict, { cuts }: Candidate): string {
  const side = sideWords(main.kind);
  // What is done for another conflict of the tree is counted in the same sentence.
  const own = cuts.find(({ conflict }) => conflict === main) ?? cuts[0]!;
  if (own.leaders !== undefined) {
    return isWoody(tree) ? "Cutting leaders back to laterals that grow away from the line" : "Trimming it lower";
  }
  if (!isWoody(tree)) return `Trimming it ${side}`;
  if (own.remedy === "lift") return "Removing the lowest limbs all round";
  // Where too little of every limb would stay, shortening comes to removing.
  return own.remedy === "shorten" && own.shortenM > 0
    ? `Cutting back branch tips ${side}`
    : `Removing ${isOverWay(main.kind) ? "low limbs" : "limbs"} ${side}`;
}

const isOverWay = (kind: ConflictKind): boolean => isHeadroom(kind) && kind !== "building-roof";

/** For a tree nothing is prescribed for, because nothing is in its way now. */
export function whyNothing(
  tree: Tree,
  conflicts: readonly Conflict[],
  notChecked: readonly ConflictKind[],
  units: DisplayUnits,
): string {
  const unchecked = notChecked.length === 0 ? "" : ` Not checked: ${kindsWords(notChecked)}.`;
  const soonest = conflicts.reduce<Conflict | null>(
    (first, conflict) => (first === null || conflict.reachedOn < first.reachedOn ? conflict : first),
    null,
  );
  if (soonest === null) return `No conflict found among what was checked.${unchecked}`;
  return `Nothing to prune in this cycle. ${causeWords(soonest, tree, units)}`;
}

/** For a tree that stands in a view and can only be raised out of it when it has grown. */
export function whyGrows(tree: Tree, conflict: Conflict, year: number, units: DisplayUnits): string {
  return `${causeWords(conflict, tree, units)} The tree is too low yet to be raised out of it; it is expected to be tall enough about ${year}.`;
}

/** For a tree whose cure must wait: a new planting, one that may be new, or one pruned lately. */
export function whyWaits(tree: Tree, conflicts: readonly Conflict[], earliest: Earliest, units: DisplayUnits): string {
  const date = formatDate(earliest.date);
  const reason = {
    "new-planting": `The tree is newly planted, and live branches stay on it until ${date}.`,
    undated: `No planting date is known and its thin stem may be new, so live branches stay on it until ${date} unless it proves to be older.`,
    pruned: `The tree was pruned less than 12 months ago, and live branches stay on it until ${date}.`,
  }[earliest.cause];
  return `${causeWords(conflicts[0]!, tree, units)} ${reason}`;
}

const REFERRED_WORDS: ReadonlyMap<string, string> = new Map([
  [
    "only-top-would-cure",
    "Only cutting the top would clear it, which is never done; a licensed arborist and the line's owner decide.",
  ],
  ["trunk-in-way", "The trunk itself stands in it as mapped, so pruning cannot help; a licensed arborist decides."],
  ["dose-beyond-limits", "Clearing it would cost the tree more than it should lose; a licensed arborist decides."],
  [
    "stands-in-view",
    "It can neither be raised out of the view nor kept below it within the limits on pruning; its owner and the traffic engineer decide.",
  ],
  ["form-without-rule", "No rule prunes a tree of this form for it; a licensed arborist decides."],
  ["inspect-first", "That is only possible, so it is measured on site before anybody cuts."],
]);

/** For a tree that is referred instead of pruned: what is in the way, and why that is not cut. */
export function whyReferred(tree: Tree, conflicts: readonly Conflict[], refer: Referral, units: DisplayUnits): string {
  const words = REFERRED_WORDS.get(refer.code);
  const main = conflicts[0];
  return words === undefined || main === undefined ? refer.reason : `${causeWords(main, tree, units)} ${words}`;
}
