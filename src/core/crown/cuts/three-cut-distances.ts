import { METERS_PER_INCH } from "../../units/length.ts";
import { CUT_SOURCES, type CutSource } from "./cut-rule.ts";

/** Where the first two of three cuts go, in meters outward along the limb from its collar. */
export interface ThreeCutDistances {
  readonly undercutFromM: number;
  readonly undercutToM: number;
  /** Share of the limb's thickness that the first cut goes into, from below. */
  readonly undercutShare: number;
  /** How much farther out than the first cut the second one goes through, from above. */
  readonly topCutBeyondM: number;
  readonly source: CutSource;
}

/** Limbs thicker than this, in meters, are cut farther out. */
export const HEAVY_LIMB_M = 2 * METERS_PER_INCH;

const HEAVY: ThreeCutDistances = {
  undercutFromM: 12 * METERS_PER_INCH,
  undercutToM: 24 * METERS_PER_INCH,
  undercutShare: 0.25,
  topCutBeyondM: 2 * METERS_PER_INCH,
  source: CUT_SOURCES.threeCut,
};

const LIGHT: ThreeCutDistances = {
  undercutFromM: 6 * METERS_PER_INCH,
  undercutToM: 12 * METERS_PER_INCH,
  undercutShare: 0.25,
  topCutBeyondM: METERS_PER_INCH,
  source: CUT_SOURCES.lighterLimb,
};

/**
 * The distances of the three-cut method for a limb of this diameter in meters: over 2 in as the University of California gives them (1 to 2 ft
 * out, a quarter through, 2 in beyond), up to that as quoted for lighter limbs (6 to 12 in, a quarter, 1 in beyond).
 */
export const threeCutDistances = (diameterM: number): ThreeCutDistances => (diameterM > HEAVY_LIMB_M ? HEAVY : LIGHT);
