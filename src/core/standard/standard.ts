import type { RoadClass } from "../model/surroundings.ts";
import type { ClearanceRemedy, ConflictKind, Hazard, KnownHow } from "../model/terms.ts";

/** Where a value was found. */
export interface Source {
  readonly title: string;
  readonly section: string | null;
  readonly known: KnownHow;
}

/** A region of space that must be free of branches. Lengths in meters; `published` keeps the source's own figure. */
export interface ClearanceRule {
  readonly id: string;
  readonly kind: ConflictKind;
  readonly protects: string;
  readonly minimumM: number;
  readonly clearToM: number;
  readonly published: string;
  readonly admits: readonly ClearanceRemedy[];
  /** Below this height or distance it is a hazard with a deadline; null where it never is. */
  readonly hazard: { readonly kind: Hazard; readonly belowM: number } | null;
  readonly source: Source;
}

export interface WidthRule {
  readonly minM: number;
  readonly typicalM: number;
  readonly maxM: number;
  readonly laneM: number;
  readonly speedKmh: number;
}

/** A time of year in which a group of trees is not, or preferably not, pruned. Month-day, inclusive; may span New Year. */
export interface SeasonRule {
  readonly id: string;
  /** Genera it applies to; empty for all that fit `appliesTo`. */
  readonly genera: readonly string[];
  readonly appliesTo: "all" | "deciduous" | "evergreen" | "conifer" | "spring-blooming" | "bleeding";
  /** Regions it binds in (ISO 3166 codes, a country code covers its parts); empty for everywhere. */
  readonly regions: readonly string[];
  readonly avoidFrom: string;
  readonly avoidTo: string;
  readonly rank: "law" | "disease" | "species" | "preference";
  readonly reason: string;
  /** Generic dormancy rules move six months in the southern hemisphere; regional ones never do. */
  readonly shiftsSouth: boolean;
  readonly source: Source;
}

/** Every rule of a run, merged and in meters. */
export interface Standard {
  readonly id: string;
  readonly title: string;
  readonly rules: readonly ClearanceRule[];
  readonly widths: Readonly<Record<RoadClass, WidthRule>>;
  /** Sources of the values that carry none of their own, by the path of the member they stand in, for example `widths`. */
  readonly provenance: Readonly<Record<string, Source>>;
  readonly walkwayWidthM: number;
  readonly assumedBuildingHeightM: number;
  readonly storeyHeightM: number;
  readonly sight: {
    readonly ruleId: string;
    readonly windowLowM: number;
    readonly windowHighM: number;
    readonly clearToM: number;
    /** Decision point back from the edge of the major traveled way. */
    readonly setbackM: number;
    readonly gapLeftS: number;
    readonly gapRightS: number;
    readonly extraLaneS: number;
    /** Signs farther than this from an intersection leg do not control it. */
    readonly signReachM: number;
    readonly source: Source;
  };
  readonly conductor: {
    readonly assumedVoltageV: number | null;
    /** Worker approach distance by line-to-line voltage, ascending; meters. */
    readonly approach: readonly { readonly upToV: number; readonly distanceM: number }[];
    readonly assumedAttachmentM: number;
    /** Sag at mid-span as a share of the span when none is given. */
    readonly assumedSagShare: number;
    readonly source: Source;
  };
  readonly pruning: {
    readonly ceilingShare: number;
    readonly matureShare: number;
    readonly stressedShare: number;
    readonly liveCrownRatio: number;
    readonly interimCrownBaseShare: number;
    readonly multiYearCeilingShare: number;
    readonly maxStages: number;
    readonly cycleYears: number;
    readonly establishmentMonthsPerInch: {
      readonly "2-6": number;
      readonly "7-8": number;
      readonly "9-13": number;
      readonly unknown: number;
    };
    readonly establishmentMaxMonths: number;
    readonly establishedDbhM: number;
    readonly droopMPerYear: number;
    readonly regrowthShortenMPerYear: number;
    readonly regrowthRemoveMPerYear: number;
    readonly source: Source;
  };
  readonly seasons: readonly SeasonRule[];
  /** Nesting caution, month-day, inclusive. */
  readonly nesting: { readonly from: string; readonly to: string; readonly source: Source };
  readonly deadlines: Readonly<Record<Hazard, number>>;
  readonly crew: {
    readonly groundReachM: number;
    readonly groundLimbM: number;
    readonly minutesPerTree: readonly { readonly dbhBelowM: number; readonly minutes: number }[];
    readonly setUpMinutes: number;
    readonly hoursPerDay: number;
    readonly source: Source;
  };
}
