import type { IsoDate } from "../units/calendar.ts";
import type { Basis, Condition, Defect, Form, Habit } from "./terms.ts";

/** Four crown radii in meters, toward north, east, south and west; elliptic in each quadrant between two of them. */
export interface Radii {
  readonly northM: number;
  readonly eastM: number;
  readonly southM: number;
  readonly westM: number;
}

/** A length with its 90 % interval and where it comes from. */
export interface Size {
  readonly valueM: number;
  readonly lowM: number;
  readonly highM: number;
  readonly basis: Basis;
  /** Column, equation or rule in words, for example `column THEIGHT` or `urban allometry, Acer rubrum, from dbh`. */
  readonly source: string;
}

/** One tree ready to be measured: every size of the crown present, each with its basis; null is unknown. */
export interface Tree {
  /** Row in the tree table; the order of the input. */
  readonly row: number;
  /** Position in the trees layer (`SourceFeature.ordinal`). */
  readonly ordinal: number;
  /** Unique among the plan's trees: the mapped id as text, with `~2`, `~3` ... appended to a repeated one, or `file#index`. */
  readonly id: string;
  readonly lonDeg: number;
  readonly latDeg: number;
  readonly species: string | null;
  readonly commonName: string | null;
  readonly form: Form;
  readonly habit: Habit;
  /** Stem diameter at breast height in meters. */
  readonly dbhM: number | null;
  readonly dbhBasis: Basis | null;
  /** Ends of the class that the diameter was given as, in meters; null or absent where it was given as a figure. */
  readonly dbhLowM?: number | null;
  readonly dbhHighM?: number | null;
  readonly height: Size;
  readonly crownBase: Size;
  /** Mean radius and its interval; the shape is in `radii`. */
  readonly radius: Size;
  readonly radii: Radii;
  /** Meters east and north of the trunk's foot at which the crown's axis stands, about which `radii` are; absent is 0, a crown over its trunk. */
  readonly crownEastM?: number;
  readonly crownNorthM?: number;
  /** Farthest in meters that the stem of a leaning tree is from the crown's axis inside the crown; absent is 0. */
  readonly stemRunM?: number;
  /** Where the crown's place is from, in words; null or absent for a crown over its trunk. */
  readonly crownPlaceSource?: string | null;
  readonly planted: IsoDate | null;
  /** Stem caliper at planting in meters. */
  readonly caliperAtPlantingM: number | null;
  readonly lastPruned: IsoDate | null;
  /** Share of live crown taken at the last pruning, 0 to 1. */
  readonly lastDoseShare: number | null;
  readonly condition: Condition;
  readonly defects: readonly Defect[];
  readonly stems: number;
  /** Ground elevation in meters. */
  readonly groundZM: number | null;
  /** Measured free height over the road in meters; outranks the crown model. */
  readonly headroomOverRoadM: number | null;
  readonly street: string | null;
  readonly address: string | null;
  readonly side: string | null;
  readonly owner: string | null;
  readonly isProtected: boolean;
  readonly traits: SpeciesTraits;
  /** What crews reported last of it; absent where nothing was recorded. */
  readonly worked?: TreeWork;
  /** Ids it bore in earlier inventories, oldest first; absent where it has always had this one. */
  readonly formerly?: readonly string[];
  /** Sizes as an inventory gave them that was taken by `asOf` and has not been repeated since: those above have grown. Absent where they have not. */
  readonly inventoried?: InventoriedSizes;
  /** What an arborist's measurements took the place of; absent where nobody measured. */
  readonly unsaid?: UnsaidFigures;
}

/** Sizes that a tree has grown out of since they were measured. */
export interface InventoriedSizes
  extends Pick<Tree, "height" | "crownBase" | "radius" | "radii" | "headroomOverRoadM"> {
  /** As-of date of the first plan that had these sizes. */
  readonly asOf: IsoDate;
}

/** Figures of a tree as they are without what arborists measured. */
export type UnsaidFigures = Partial<
  Pick<
    Tree,
    | "height"
    | "crownBase"
    | "radius"
    | "radii"
    | "headroomOverRoadM"
    | "dbhM"
    | "dbhBasis"
    | "dbhLowM"
    | "dbhHighM"
    | "planted"
    | "defects"
  >
>;

/** The last report of a tree's work. A tree that is gone stays in the plan, without conflicts or visits. */
export interface TreeWork {
  readonly outcome: "done" | "partly" | "not-done" | "gone";
  readonly on: IsoDate;
}

/** What is known of a species, or of its genus or type where the species is not known. */
export interface SpeciesTraits {
  /** What the traits were found by. */
  readonly matchedBy: "species" | "genus" | "type" | "none";
  /** The name they belong to, for example `Quercus` for a genus match; empty for none. */
  readonly matchedName: string;
  readonly habit: Habit;
  readonly isEvergreen: boolean;
  readonly isConifer: boolean;
  /** Growth in height and in crown radius, meters a year, with the source in words. */
  readonly heightGrowthMPerYear: number;
  readonly radiusGrowthMPerYear: number;
  readonly growthSource: string;
  readonly matureHeightM: number;
  readonly bleeds: boolean;
  /** Genera and hosts named by season rules, for example `Quercus`, `Ulmus`, `Prunus`; the genus in general. */
  readonly genus: string;
  readonly springBlooming: boolean;
}
