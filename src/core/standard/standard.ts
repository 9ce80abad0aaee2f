import type { RuleCases } from "../model/load-cases.ts";
import type { RoadClass } from "../model/surroundings.ts";
import type { ClearanceRemedy, ConflictKind, Crew, Hazard, KnownHow } from "../model/terms.ts";
import type { DroopRule } from "./droop-rule.ts";
import type { AcceptanceRules, NoticeRules } from "./notice-rules.ts";
import type { RiskRules } from "./risk-rules.ts";
import type { SightRules } from "./sight-rules.ts";
import type { ViewRules } from "./view-rules.ts";
import type { WayRules } from "./way-rules.ts";

/** What the height of a rule is measured above. */
export const DATUMS = ["curb-top", "pavement-edge", "center-line", "ground"] as const;
export type Datum = (typeof DATUMS)[number];

/** Where a value was found. */
export interface Source {
  readonly title: string;
  /** Edition, revision or date of the document; null where it is not noted or has none. */
  readonly edition: string | null;
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
  readonly publishedClearTo: string;
  readonly admits: readonly ClearanceRemedy[];
  /** Below this height or distance it is a hazard with a deadline; null where it never is. */
  readonly hazard: { readonly kind: Hazard; readonly belowM: number } | null;
  /** The least the law allows, with its own source; null where none is known. A minimum below it is a finding. */
  readonly floor: { readonly minimumM: number; readonly published: string; readonly source: Source } | null;
  /** ISO 3166 code of the place it binds in; null for everywhere. */
  readonly region: string | null;
  /** Null where the source does not say it, and for distances that are not heights. */
  readonly datum: Datum | null;
  /** Line-to-line voltages it holds for: above `overV`, from `fromV`, up to and with `upToV`, below `belowV`; null for no bound. */
  readonly overV: number | null;
  readonly fromV: number | null;
  readonly upToV: number | null;
  readonly belowV: number | null;
  /** Minimum by altitude above sea level, ascending, bands up to and with `upToM`; `minimumM` holds where the altitude is unknown. */
  readonly byAltitude: readonly { readonly upToM: number; readonly minimumM: number }[];
  /** States of weather in which a conductor's distance must hold; null where the rule names none, and the policy for such rules holds. */
  readonly loadCases: RuleCases | null;
  readonly source: Source;
}

/** One value that an override changed. */
export interface StandardChange {
  /** Members from the top, joined by dots; a rule or season by its id, for example `rules.roadway-headroom.minimum`. */
  readonly path: string;
  /** JSON value before and after; null before for what is new. */
  readonly from: unknown;
  readonly to: unknown;
  /** Title of the standard that changed it. */
  readonly by: string;
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
  /** Scientific names it applies to, varieties and cultivars included; empty for all of its genera. */
  readonly species: readonly string[];
  /** What safety work in that time must heed, as a sentence; null for nothing beyond care. */
  readonly precaution: string | null;
  readonly source: Source;
}

/** When birds are likeliest to nest: month-day, inclusive. */
export interface NestingDates {
  readonly from: string;
  readonly to: string;
  readonly source: Source;
}

/** A distance that holds up to and with a voltage. */
export interface VoltageBand {
  readonly upToV: number;
  readonly distanceM: number;
}

/** Every rule of a run, merged and in meters. */
export interface Standard {
  readonly id: string;
  readonly title: string;
  /** Ids of the standards it was made of, the first one first; empty for one that stands alone. */
  readonly mergedFrom: readonly string[];
  /** What overrides changed, oldest first. */
  readonly changes: readonly StandardChange[];
  readonly rules: readonly ClearanceRule[];
  readonly widths: Readonly<Record<RoadClass, WidthRule>>;
  readonly ways: WayRules;
  /** Sources of the values that carry none of their own, by the path of the member they stand in, for example `widths`. */
  readonly provenance: Readonly<Record<string, Source>>;
  readonly walkwayWidthM: number;
  readonly assumedBuildingHeightM: number;
  readonly storeyHeightM: number;
  /** Height under a roof on columns whose own is not recorded. */
  readonly canopyUndersideM: number;
  readonly sight: SightRules;
  readonly views: ViewRules;
  readonly conductor: {
    readonly assumedVoltageV: number | null;
    /** Worker approach distance by line-to-line voltage, ascending; meters. */
    readonly approach: readonly VoltageBand[];
    /** Distance of cranes and loaders by line voltage, ascending; null where the standard has none. */
    readonly equipmentApproach: readonly VoltageBand[] | null;
    /** Altitude of the place above sea level in meters; null where it is not given. */
    readonly altitudeM: number | null;
    readonly assumedAttachmentM: number;
    /** Assumed attachment height by line-to-line voltage, ascending; above the last band its own. Empty: `assumedAttachmentM` for all. */
    readonly assumedAttachmentByVoltage: readonly { readonly upToV: number; readonly heightM: number }[];
    /** Sag at mid-span as a share of the span when none is given; null takes the published example by the length of the span. */
    readonly assumedSagShare: number | null;
    /** The cylinder about a pole that is kept clear; null where the standard asks for none. */
    readonly poleClearing: {
      /** From the pole's outside at the ground. */
      readonly radiusM: number;
      /** Up to this height everything goes; above it, to the highest attachment, what is dead, diseased or dying. */
      readonly allBelowM: number;
      readonly source: Source;
    } | null;
    readonly source: Source;
  };
  readonly pruning: {
    readonly ceilingShare: number;
    readonly mediumShare: number;
    readonly matureShare: number;
    readonly overMatureShare: number;
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
    /** Structural pruning of young trees from establishment on; null where the standard asks for none. */
    readonly training: {
      readonly cycleYears: number;
      /** Up to this height of the tree, and so many years from planting. */
      readonly untilHeightM: number;
      readonly untilYears: number;
      /** Share of live crown it is counted with. */
      readonly share: number;
      readonly source: Source;
    } | null;
    readonly source: Source;
  };
  readonly droopAllowances: readonly DroopRule[];
  readonly seasons: readonly SeasonRule[];
  readonly nesting: NestingDates & {
    /** Dates read for a region; there they hold in place of the general ones. */
    readonly byRegion: readonly (NestingDates & { readonly regions: readonly string[]; readonly birds: string })[];
  };
  readonly deadlines: Readonly<Record<Hazard, number>>;
  readonly crew: {
    readonly groundReachM: number;
    readonly groundLimbM: number;
    readonly minutesPerTree: readonly { readonly dbhBelowM: number; readonly minutes: number }[];
    readonly setUpMinutes: number;
    readonly hoursPerDay: number;
    /** People in a crew of each kind; hours are those of the crew. */
    readonly people: Readonly<Record<Crew, number>>;
    readonly source: Source;
  };
  readonly risk: RiskRules;
  readonly notices: NoticeRules;
  readonly acceptance: AcceptanceRules;
}
