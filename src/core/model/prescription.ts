import type { IsoDate } from "../units/calendar.ts";
import type { ClearanceRemedy, Crew, Remedy, Urgency } from "./terms.ts";
import type { WordInForce } from "./word.ts";

/** How long a remedy lasts when it is taken so far, and what that costs. */
export interface OptionTarget {
  readonly lastsYears: number;
  /** The larger of the shares of live crown by volume and by leaf, all visits together. */
  readonly doseShare: number;
  /** Null when it may be prescribed; else the limit that forbids it, in words. */
  readonly ruledOutBy: string | null;
}

/** One way of curing all of a tree's conflicts; all are computed and shown, one is prescribed. */
export interface PruningOption {
  readonly remedy: ClearanceRemedy;
  /** Height in meters that the lowest branches reach afterwards, where it applies; null otherwise. */
  readonly liftToM: number | null;
  /** Longest length in meters taken off branch tips; null where no tip is shortened. */
  readonly shortenM: number | null;
  /** Height in meters that leaders under a line come down to, each to a lateral that takes over; absent where none do. */
  readonly leadersToM?: number;
  readonly doseByVolumeShare: number;
  readonly doseByLeafShare: number;
  /** The larger of the two, 0 to 1. */
  readonly doseShare: number;
  /** Estimated diameters in meters of the limbs cut, smallest and largest. */
  readonly limbDiameterM: readonly [number, number];
  /** Years until the first minimum is reached again at this tree's growth. */
  readonly lastsYears: number;
  readonly liveCrownRatioAfter: number;
  /** Dose per year cleared, the ranking; lower is better. */
  readonly dosePerYear: number;
  /** Null when it may be prescribed; else the limit that forbids it, in words. */
  readonly ruledOutBy: string | null;
  /**
   * What the same remedy costs when it lasts shorter and longer, ascending: at the least that may be cut for, as prescribed, and until the next
   * cycle. One where these are the same; absent in plans of an earlier version.
   */
  readonly targets?: readonly OptionTarget[];
}

export interface Task {
  readonly taskId: string;
  /** One plain sentence: why. */
  readonly cause: string;
  readonly conflictIds: readonly string[];
  readonly objective: "clearance" | "risk-reduction" | "health" | "structure";
  readonly remedy: Remedy;
  /** Where on the tree, in words, with bearing and height. */
  readonly where: string;
  readonly bearingDeg: number | null;
  readonly belowM: number | null;
  /**
   * Free height over ways, sight lines and roofs, free distance to walls and lines, that the cut reaches: the clear-to or more, so that it
   * lasts; less in a visit that is one of several. Null where no clearance is cut for, and for shrubs held below a sight window.
   */
  readonly targetM: number | null;
  /** How to cut, in words; cut kind and method follow from limb size. */
  readonly how: string;
  readonly cut: "removal" | "reduction";
  readonly method: "hand" | "single-cut" | "three-cut";
  readonly timing: "any-time" | "window";
  readonly doseShare: number;
  readonly limbDiameterM: readonly [number, number];
}

export interface Visit {
  readonly visitId: string;
  readonly treeId: string;
  readonly treeRow: number;
  /** 1 for the next visit. */
  readonly number: number;
  readonly tasks: readonly Task[];
  readonly doseShare: number;
  readonly crew: Crew;
  readonly hours: number;
  readonly due: IsoDate;
  /** Allowed dates, inclusive. */
  readonly windowStart: IsoDate;
  readonly windowEnd: IsoDate;
  readonly windowReason: string;
  readonly urgency: Urgency;
  readonly overdue: boolean;
  /** Conflicts still open after this visit, in words; empty when cured. */
  readonly openAfter: readonly string[];
}

export interface Referral {
  readonly code: string;
  /** One plain sentence: why no rule may prescribe this, and what the owner's options are. */
  readonly reason: string;
}

/** What one tree gets. */
export interface Prescription {
  readonly treeId: string;
  readonly treeRow: number;
  readonly options: readonly PruningOption[];
  /** Index into `options`, or null when nothing is prescribed for clearance. */
  readonly chosen: number | null;
  readonly tasks: readonly Task[];
  readonly visits: readonly Visit[];
  readonly refer: Referral | null;
  readonly remedy: Remedy;
  readonly doseTotalShare: number;
  readonly liftM: number | null;
  readonly liftToM: number | null;
  readonly shortenM: number | null;
  readonly bearingDeg: number | null;
  readonly liveCrownRatioBefore: number;
  readonly liveCrownRatioAfter: number;
  /** The limit on one season's dose that was applied, 0 to 0.25, with the reason in words. */
  readonly doseLimitShare: number;
  readonly doseLimitReason: string;
  readonly openUntilYear: number | null;
  readonly urgency: Urgency;
  readonly overdue: boolean;
  readonly cautions: readonly string[];
  /** One plain sentence a resident would understand. */
  readonly why: string;
  /** What arborists said of it that is in force, in the order they said it; absent where nobody said anything. */
  readonly words?: readonly WordInForce[];
}
