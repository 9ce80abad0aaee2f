import { RAY_COUNT, RAY_STEP_DEG, type RemovalRegion } from "../model/conflict.ts";
import { BandSums } from "./band-sums.ts";
import { type Crown, radiusTowardM, relativeHeight } from "./crown.ts";
import { MergedRays } from "./merged-rays.ts";
import { squaredShareBelow } from "./profile-integral.ts";
import { RaySpans } from "./ray-spans.ts";
import type { RegionOnRays } from "./region-on-rays.ts";

/** Shares of the live crown, 0 to 1, by its volume and by its leaves. */
export interface Dose {
  readonly volumeShare: number;
  readonly leafShare: number;
}

/** The larger of the two shares: what limits apply to. */
export const doseShare = (dose: Dose): number => Math.max(dose.volumeShare, dose.leafShare);

export const NO_DOSE: Dose = { volumeShare: 0, leafShare: 0 };

/** Crown radius in meters along each of the removal rays, ray i at bearing (i + 0.5) * 3 degrees. */
export function rayRadiiM(crown: Crown): Float64Array {
  const radiiM = new Float64Array(RAY_COUNT);
  for (let ray = 0; ray < RAY_COUNT; ray += 1) {
    radiiM[ray] = radiusTowardM(crown.radii, (ray + 0.5) * RAY_STEP_DEG);
  }
  return radiiM;
}

/**
 * Share of the live crown inside the union of the regions, by volume and by leaf.
 *
 * Volume is the integral of rho d rho. The leaf model is this project's policy: leaf density grows with the square of the relative
 * radius, rho^2 / r(z)^2, so that tips carry more leaf than the inner crown; every height then carries leaf in proportion to its
 * section, and a whole-ring lift takes the same share in both. Per ray and per band of heights between region limits the overlapping
 * regions are merged and integrated in closed form, exact in height and distance. Around the trunk it is the midpoint rule over
 * the 120 rays, in which the regions themselves are given, and over eight parts of a ray where an edge crosses it steeply
 * ({@link RaySpans}): straight cuts are within 0.1 % of the crown from their closed forms unless they run through the trunk's
 * axis. 0 for a crown without depth or width; regions outside it count nothing.
 */
export function unionDose(crown: Crown, regions: readonly RemovalRegion[], radiiM = rayRadiiM(crown)): Dose {
  const depthM = crown.heightM - crown.crownBaseM;
  if (!(depthM > 0) || regions.length === 0) return NO_DOSE;
  let squaredRadii = 0;
  for (let ray = 0; ray < RAY_COUNT; ray += 1) squaredRadii += radiiM[ray]! ** 2;
  const wholeVolume = squaredRadii * squaredShareBelow(crown.habit, 1);
  if (!(wholeVolume > 0)) return NO_DOSE;

  RAY_SPANS.load(regions, radiiM, crown.habit);
  const bandCount = loadHeightBands(crown, regions);
  SUMS.begin(crown.habit);
  for (let at = 0; at < bandCount; at += 1) {
    const fromU = bandLimits[at]!;
    const toU = bandLimits[at + 1]!;
    const middleM = crown.crownBaseM + ((fromU + toU) / 2) * depthM;
    let active = 0;
    let areToEdge = true;
    for (let region = 0; region < regions.length; region += 1) {
      const { lowM, highM } = regions[region]!;
      if (!(lowM < middleM && highM > middleM)) continue;
      const onRays = RAY_SPANS.regions[region]!;
      ACTIVE[active] = onRays;
      active += 1;
      areToEdge &&= onRays.isToEdge;
    }
    if (active === 0) continue;
    SUMS.beginBand(fromU, toU);
    if (!areToEdge) MERGED.addSpans(SUMS, ACTIVE, active, radiiM);
    else if (active > 1) MERGED.addToEdge(SUMS, ACTIVE, active, radiiM);
    else SUMS.addToEdge(ACTIVE[0]!.entries, ACTIVE[0]!.length);
  }
  return { volumeShare: shareOf(SUMS.volume, wholeVolume), leafShare: shareOf(SUMS.leaf, wholeVolume) };
}

/** Working space of one call after another, never read across calls but for the regions that {@link RaySpans} remembers. */
const RAY_SPANS = new RaySpans();
const MERGED = new MergedRays();
const SUMS = new BandSums();
const ACTIVE: RegionOnRays[] = [];
let bandLimits = new Float64Array(32);

/** Puts the relative heights at which the set of active regions changes into `bandLimits`, ascending, from 0 to 1, each once; gives how many bands they bound. */
function loadHeightBands(crown: Crown, regions: readonly RemovalRegion[]): number {
  if (bandLimits.length < 2 + 2 * regions.length) bandLimits = new Float64Array(4 + 4 * regions.length);
  bandLimits[0] = 0;
  bandLimits[1] = 1;
  let count = 2;
  for (let at = 0; at < regions.length; at += 1) {
    count = withLimit(count, relativeHeight(crown, regions[at]!.lowM));
    count = withLimit(count, relativeHeight(crown, regions[at]!.highM));
  }
  return count - 1;
}

/** Puts a limit between 0 and 1 into its place among `count` ascending ones; gives how many there are then. */
function withLimit(count: number, limit: number): number {
  if (!(limit > 0 && limit < 1)) return count;
  const limits = bandLimits;
  let at = count;
  while (limits[at - 1]! > limit) at -= 1;
  if (limits[at - 1] === limit) return count;
  for (let place = count; place > at; place -= 1) limits[place] = limits[place - 1]!;
  limits[at] = limit;
  return count + 1;
}

const shareOf = (part: number, whole: number): number => Math.min(1, Math.max(0, part / whole));
