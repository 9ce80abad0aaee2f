import type { Conflict } from "../model/conflict.ts";
import type { Standard } from "../standard/standard.ts";
import { addDays, type IsoDate, yearOf } from "../units/calendar.ts";
import { type Cut, cutFor, isConifer, isHeadroom, isView, isWoody, type Subject, yearsAtClearTo } from "./cut.ts";
import { isYoung } from "./dose-limit.ts";
import { yearTallEnough } from "./grows-out-of-view.ts";
import { type Candidate, CONIFER_DEPTH_SHARE, candidateOf } from "./options.ts";
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
  // Of a tree that stands in the view every limb would come off whole.
  const tips = conflicts
    .filter((conflict) => conflict.admits.includes("shorten") && !standsInView(conflict))
    .map((conflict) => cutFor(subject, conflict, "shorten", yearsToHold(conflict, standard), standard))
    .filter((cut) => !isConifer(tree) || cut.shortenShare <= CONIFER_DEPTH_SHARE);
  const lift: Cut[] = [];
  if (liftM > crown.crownBaseM) {
    const whole = cutFor(subject, main, "lift", 0, standard);
    lift.push({ ...whole, region: { ...whole.region, highM: liftM }, belowM: liftM, targetM: liftM });
  }
  const [stage] = divideIntoStages(subject, [...lift, ...tips], (at) => (at === 0 ? limitShare : -1), standard).stages;
  if (stage === undefined || stage.doseShare === 0) return null;
  const lastsYears = conflicts.reduce(
    (least, conflict) => Math.min(least, yearsAtClearTo(conflict, "shorten", standard)),
    standard.pruning.cycleYears,
  );
  const cuts = stage.parts.map((part) => part.cut);
  const candidate = candidateOf(subject, cuts, lift.length > 0 ? "lift" : "shorten", lastsYears, limitShare, standard);
  if (candidate.ruledOut !== null) return null;
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

/** Beside a wall that stands within the clear-to there is no clear-to to reach; the cut holds for the least time instead. */
const yearsToHold = (conflict: Conflict, standard: Standard): number =>
  conflict.kind === "building-side" ? yearsAtClearTo(conflict, "shorten", standard) : 0;
