import type { RoadClass } from "../model/surroundings.ts";
import type { Certainty, Defect, Hazard } from "../model/terms.ts";
import type { Source } from "./standard.ts";

/** Who or what is under a branch: the class of a road, another way, a building, a line, or nothing of these. */
export const OTHER_EXPOSURES = [
  "bus-route",
  "fire-lane",
  "walkway",
  "bikeway",
  "building",
  "conductor",
  "elsewhere",
] as const;
export type Exposure = RoadClass | (typeof OTHER_EXPOSURES)[number];

/** Weights by which work is ordered within a budget. Plain numbers without a unit; a residential street below its minimum is 1. */
export interface RiskRules {
  readonly hazardWeights: Readonly<Record<Hazard, number>>;
  /** A minimum that is not kept and is no hazard. */
  readonly belowMinimumWeight: number;
  readonly defectWeights: Readonly<Record<Defect, number>>;
  /** Structural pruning of a young tree. */
  readonly trainingWeight: number;
  readonly certaintyWeights: Readonly<Record<Certainty, number>>;
  /** Added to 1, times the share of the minimum that is lacking. */
  readonly shortfallWeight: number;
  /** Added to 1 for each year past the due date, up to `overdueMost` in all. */
  readonly overduePerYear: number;
  readonly overdueMost: number;
  readonly exposureWeights: Readonly<Record<Exposure, number>>;
  readonly source: Source;
}
