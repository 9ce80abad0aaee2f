import { type Crown, relativeHeight } from "../../src/core/crown/crown.ts";
import { type Dose, NO_DOSE, rayRadiiM } from "../../src/core/crown/dose.ts";
import { highestAt, lowestAt } from "../../src/core/crown/profile.ts";
import { inverseSquaredShareBetween, squaredShareBelow } from "../../src/core/crown/profile-integral.ts";
import { RAY_COUNT, type RemovalRegion } from "../../src/core/model/conflict.ts";
import type { Habit } from "../../src/core/model/terms.ts";

/**
 * The dose of `unionDose` the slow way: every ray of every band works out each region anew, in the order of the definition. The oracle of the
 * fast way, which must give the same bits.
 */
export function doseRayByRay(crown: Crown, regions: readonly RemovalRegion[], radiiM = rayRadiiM(crown)): Dose {
  const depthM = crown.heightM - crown.crownBaseM;
  if (!(depthM > 0) || regions.length === 0) return NO_DOSE;
  let squaredRadii = 0;
  for (let ray = 0; ray < RAY_COUNT; ray += 1) squaredRadii += radiiM[ray]! ** 2;
  const wholeVolume = squaredRadii * squaredShareBelow(crown.habit, 1);
  if (!(wholeVolume > 0)) return NO_DOSE;

  const bands = heightBands(crown, regions);
  const spans = new Float64Array(regions.length * 2);
  const innerReach: Reach = { volume: 0, leaf: 0 };
  const outerReach: Reach = { volume: 0, leaf: 0 };
  let volume = 0;
  let leaf = 0;
  for (let at = 0; at + 1 < bands.length; at += 1) {
    const fromU = bands[at]!;
    const toU = bands[at + 1]!;
    const middleM = crown.crownBaseM + ((fromU + toU) / 2) * depthM;
    const active = regions.filter((region) => region.lowM < middleM && region.highM > middleM);
    if (active.length === 0) continue;
    const bandShare = squaredShareBelow(crown.habit, toU) - squaredShareBelow(crown.habit, fromU);
    for (let ray = 0; ray < RAY_COUNT; ray += 1) {
      const radiusM = radiiM[ray]!;
      const parts = active.some((region) => isSteep(region, ray, radiusM)) ? STEEP_PARTS : 1;
      const squaredRadius = (radiusM * radiusM) / parts;
      for (let part = 0; part < parts; part += 1) {
        const count = mergedSpans(active, ray, (part + 0.5) / parts - 0.5, radiusM, spans);
        for (let span = 0; span < count; span += 1) {
          // Distances as shares of the ray's largest radius, so that one scale serves every ray.
          const inner = spans[span * 2]! / radiusM;
          const outer = spans[span * 2 + 1]! / radiusM;
          within(crown.habit, inner, fromU, toU, innerReach);
          if (outer >= 1) {
            volume += squaredRadius * (bandShare - innerReach.volume);
            leaf += squaredRadius * (bandShare - innerReach.leaf);
          } else {
            within(crown.habit, outer, fromU, toU, outerReach);
            volume += squaredRadius * (outerReach.volume - innerReach.volume);
            leaf += squaredRadius * (outerReach.leaf - innerReach.leaf);
          }
        }
      }
    }
  }
  return { volumeShare: shareOf(volume, wholeVolume), leafShare: shareOf(leaf, wholeVolume) };
}

interface Reach {
  volume: number;
  leaf: number;
}

/** Nearer to the trunk than this share of the radius lies less than 1e-12 of a section; the closed forms lose their digits there. */
const AT_THE_TRUNK = 1e-6;

/**
 * What a band of heights holds nearer to the trunk than `share` of the radius, in units where the whole band holds the integral
 * of f^2: min(share, f)^2 by volume and min(share, f)^4 / f^2 by leaf. Written into `into`, to spare the loop an object a ray.
 */
function within(habit: Habit, share: number, fromU: number, toU: number, into: Reach): void {
  if (share < AT_THE_TRUNK) {
    into.volume = 0;
    into.leaf = 0;
    return;
  }
  const wideFromU = Math.max(fromU, Math.min(toU, lowestAt(habit, share)));
  const wideToU = Math.max(wideFromU, Math.min(toU, highestAt(habit, share)));
  const narrow =
    squaredShareBelow(habit, wideFromU) -
    squaredShareBelow(habit, fromU) +
    squaredShareBelow(habit, toU) -
    squaredShareBelow(habit, wideToU);
  const squared = share * share;
  into.volume = narrow + squared * (wideToU - wideFromU);
  into.leaf =
    wideToU > wideFromU ? narrow + squared * squared * inverseSquaredShareBetween(habit, wideFromU, wideToU) : narrow;
}

/** Relative heights at which the set of active regions changes, ascending, from 0 to 1. */
function heightBands(crown: Crown, regions: readonly RemovalRegion[]): number[] {
  const limits = [0, 1];
  for (const region of regions) {
    for (const heightM of [region.lowM, region.highM]) {
      const u = relativeHeight(crown, heightM);
      if (u > 0 && u < 1) limits.push(u);
    }
  }
  limits.sort((one, other) => one - other);
  return limits.filter((limit, at) => at === 0 || limit > limits[at - 1]!);
}

/** Parts that a ray is divided into where an edge moves along it by more than {@link STEEP_SHARE} of the radius from ray to ray. */
const STEEP_PARTS = 8;
const STEEP_SHARE = 0.1;

function isSteep({ fromM }: RemovalRegion, ray: number, radiusM: number): boolean {
  const edgeM = Math.min(radiusM, fromM[ray]!);
  const beforeM = Math.min(radiusM, fromM[(ray + RAY_COUNT - 1) % RAY_COUNT]!);
  const afterM = Math.min(radiusM, fromM[(ray + 1) % RAY_COUNT]!);
  return Math.max(Math.abs(beforeM - edgeM), Math.abs(afterM - edgeM)) > STEEP_SHARE * radiusM;
}

/**
 * Distance in meters at which a region begins, `offset` of a ray's width (-0.5 to 0.5) beside the middle of a ray; +Infinity where it is not.
 *
 * Along a straight edge the inverse of the distance is a cosine of the angle, which between two rays is a straight line to a few parts in ten
 * thousand. Where only one of the two rays meets the region, that line goes on if it leaves the crown before the next ray; else the
 * region ends abruptly, halfway for want of better, as where it reaches the trunk's axis.
 */
function edgeBetweenM(fromM: Float64Array, ray: number, offset: number, radiusM: number): number {
  const edgeM = fromM[ray]!;
  if (offset === 0 || edgeM <= 0) return edgeM;
  const step = offset > 0 ? 1 : RAY_COUNT - 1;
  const other = (ray + step) % RAY_COUNT;
  const otherM = fromM[other]!;
  if (otherM <= 0) return edgeM;
  const share = Math.abs(offset);
  if (edgeM < Number.POSITIVE_INFINITY) {
    const inverse = 1 / edgeM;
    if (otherM < Number.POSITIVE_INFINITY) return inverseOf(inverse + share * (1 / otherM - inverse));
    const slope = inverse - 1 / fromM[(ray + RAY_COUNT - step) % RAY_COUNT]!;
    return slope < 0 && inverse + slope < 1 / radiusM ? inverseOf(inverse + share * slope) : edgeM;
  }
  if (otherM === Number.POSITIVE_INFINITY) return edgeM;
  const inverse = 1 / otherM;
  const slope = inverse - 1 / fromM[(other + step) % RAY_COUNT]!;
  return slope < 0 && inverse + slope < 1 / radiusM ? inverseOf(inverse + (1 - share) * slope) : edgeM;
}

const inverseOf = (inverse: number): number => (inverse > 0 ? 1 / inverse : Number.POSITIVE_INFINITY);

/**
 * Merges what the regions take in one part of a ray into disjoint ascending spans of distance, cut at the crown's edge; returns how many.
 */
function mergedSpans(
  regions: readonly RemovalRegion[],
  ray: number,
  offset: number,
  radiusM: number,
  spans: Float64Array,
): number {
  let count = 0;
  for (const region of regions) {
    // Each region by itself, so that a union is made of the same pieces as its parts.
    const asideBy = offset !== 0 && isSteep(region, ray, radiusM) ? offset : 0;
    let fromM = Math.max(0, edgeBetweenM(region.fromM, ray, asideBy, radiusM));
    // A ray that misses the region has no end to it: its neighbor's holds.
    const endRay =
      region.fromM[ray]! < Number.POSITIVE_INFINITY ? ray : (ray + (asideBy > 0 ? 1 : RAY_COUNT - 1)) % RAY_COUNT;
    let toM = Math.min(radiusM, region.toM[endRay]!);
    if (!(toM > fromM)) continue;
    let kept = 0;
    for (let span = 0; span < count; span += 1) {
      const spanFromM = spans[span * 2]!;
      const spanToM = spans[span * 2 + 1]!;
      if (spanToM >= fromM && spanFromM <= toM) {
        fromM = Math.min(fromM, spanFromM);
        toM = Math.max(toM, spanToM);
      } else {
        spans[kept * 2] = spanFromM;
        spans[kept * 2 + 1] = spanToM;
        kept += 1;
      }
    }
    spans[kept * 2] = fromM;
    spans[kept * 2 + 1] = toM;
    count = kept + 1;
  }
  return count;
}

const shareOf = (part: number, whole: number): number => Math.min(1, Math.max(0, part / whole));
