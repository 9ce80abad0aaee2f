import { isYoung } from "../crown/life-stage.ts";
import type { Conflict } from "../model/conflict.ts";
import type { Standard } from "../standard/standard.ts";
import { addDays, type IsoDate, yearOf } from "../units/calendar.ts";
import { yearsAtClearTo } from "./clearance-target.ts";
import { type Cut, cutFor, type Subject } from "./cut.ts";
import { yearTallEnough } from "./grows-out-of-view.ts";
import { isConifer, isHeadroom, isView, isWoody } from "./kinds.ts";
import { isUnderLine } from "./leader-cut.ts";
import { CONIFER_DEPTH_SHARE } from "./limits.ts";
import { type Candidate, candidateOf } from "./options.ts";
import { divideIntoStages, type StageCuts } from "./stages.ts";

/** What a young tree gets until it is tall enough for the whole lift. */
export interface InterimLift {
  readonly candidate: Candidate;
  readonly stage: StageCuts;
  /** The year in which it is tall enough for the highest of its ways; null when its species never is. */
  readonly untilYear: number | null;
  readonly fullLiftM: number;
  /** Each way that stays open, with the year in which the tree is tall enough for it. */
  readonly openWays: ReadonlyMap<Conflict, number | null>;
  /** Conflicts with other things that this visit does not clear: growing taller does not cure them. */
  readonly uncured: readonly Conflict[];
}

/**
 * An interim lift for a young tree over a way: crown base raised to at most a third of its height, then tips cut back toward the
 * clear-to as far as the season's limit goes. Null when the tree is not young or tall enough already, no way is concerned, or this
 * breaks a limit.
 */
export function interimLift(
  subject: Subject,
  conflicts: readonly Conflict[],
  limitShare: number,
  asOf: IsoDate,
  standard: Standard,
): InterimLift | null {
  const { tree, crown } = subject;
  const ways = conflicts.filter(
    (conflict) => isHeadroom(conflict.kind) && conflict.kind !== "building-roof" && conflict.admits.includes("lift"),
  );
  if (!isWoody(tree) || tree.form === "palm" || !isYoung(tree) || ways.length === 0) return null;
  const { interimCrownBaseShare, liveCrownRatio } = standard.pruning;
  const heightForM = (conflict: Conflict) => conflict.region.highM / Math.max(0.01, 1 - liveCrownRatio);
  const main = ways.reduce((most, conflict) => (conflict.region.highM > most.region.highM ? conflict : most));
  if (crown.heightM >= heightForM(main)) return null;
  const yearFor = (conflict: Conflict): number | null => {
    const neededM = heightForM(conflict);
    const years = Math.max(0, neededM - crown.heightM) / Math.max(0.01, tree.traits.heightGrowthMPerYear);
    return neededM > tree.traits.matureHeightM ? null : yearOf(addDays(asOf, Math.ceil(years * 365.25)));
  };

  const fullLiftM = main.region.highM;
  const liftM = Math.min(fullLiftM, crown.heightM * interimCrownBaseShare);
  // Of a tree that stands in the view every limb would come off whole; leaders come down whole or not at all.
  const shortened = conflicts.filter(
    (conflict) => conflict.admits.includes("shorten") && !standsInView(conflict) && !isUnderLine(tree, conflict),
  );
  const tipsFor = (years: number) =>
    shortened
      .map((conflict) => cutFor(subject, conflict, "shorten", years, standard))
      .filter((cut) => !isConifer(tree) || cut.shortenShare <= CONIFER_DEPTH_SHARE);
  const lift: Cut[] = [];
  if (liftM > crown.crownBaseM) {
    const whole = cutFor(subject, main, "lift", 0, standard);
    lift.push({ ...whole, region: { ...whole.region, highM: liftM }, belowM: liftM, targetM: liftM });
  }
  const { cycleYears } = standard.pruning;
  const at = (years: number) => {
    const wanted = [...lift, ...tipsFor(years)];
    const [stage] = divideIntoStages(subject, wanted, (number) => (number === 0 ? limitShare : -1), standard).stages;
    if (stage === undefined || stage.doseShare === 0) return null;
    const cuts = stage.parts.map((part) => part.cut);
    const remedy = lift.length > 0 ? "lift" : "shorten";
    const candidate = candidateOf(subject, cuts, remedy, years, limitShare, standard);
    return candidate.ruledOut === null ? { stage, cuts, candidate } : null;
  };
  const leastYears = conflicts.reduce(
    (least, conflict) => Math.min(least, yearsAtClearTo(conflict, "shorten", standard)),
    cycleYears,
  );
  let best = at(leastYears);
  if (best === null) return null;
  // Tips that can be cut back farther need not be cut again so soon.
  for (let years = Math.floor(cycleYears); best.stage.open.length === 0 && years > leastYears; years -= 1) {
    const tried = at(years);
    if (tried === null || tried.stage.open.length > 0) continue;
    best = tried;
    break;
  }
  const { stage, cuts, candidate } = best;
  const unfinished = new Set(stage.open.map((cut) => cut.conflict));
  const worked = new Set(cuts.map((cut) => cut.conflict));
  return {
    candidate,
    stage,
    untilYear: yearFor(main),
    fullLiftM,
    openWays: new Map(ways.map((way) => [way, yearFor(way)])),
    uncured: conflicts.filter((conflict) =>
      ways.includes(conflict)
        ? standsInView(conflict) &&
          (conflict.hazard !== null || yearTallEnough(tree, conflict, asOf, standard) === null)
        : unfinished.has(conflict) || !worked.has(conflict),
    ),
  };
}

const standsInView = ({ kind, distanceM }: Conflict): boolean => isView(kind) && distanceM <= 0;
