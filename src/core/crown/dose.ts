import { RAY_COUNT, RAY_STEP_DEG, type RemovalRegion } from "../model/conflict.ts";
import type { Habit } from "../model/terms.ts";
import { type Crown, radiusTowardM, relativeHeight } from "./crown.ts";
import { highestAt, lowestAt } from "./profile.ts";
import { inverseSquaredShareBetween, squaredShareBelow } from "./profile-integral.ts";
import { RaySpans, STEEP_PARTS } from "./ray-spans.ts";

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

  RAY_SPANS.load(regions, radiiM);
  const bands = heightBands(crown, regions);
  const merged = new MergedSpans(regions.length);
  const taken = new TakenInBand(crown.habit);
  for (let at = 0; at + 1 < bands.length; at += 1) {
    const fromU = bands[at]!;
    const toU = bands[at + 1]!;
    const middleM = crown.crownBaseM + ((fromU + toU) / 2) * depthM;
    merged.begin();
    for (let region = 0; region < regions.length; region += 1) {
      const { lowM, highM } = regions[region]!;
      if (lowM < middleM && highM > middleM) merged.addActive(region);
    }
    if (merged.activeCount === 0) continue;
    taken.begin(fromU, toU);
    for (let ray = 0; ray < RAY_COUNT; ray += 1) {
      if (RAY_SPANS.isMet[ray] === 0) continue;
      const radiusM = radiiM[ray]!;
      if (merged.isSingle(ray)) {
        const place = merged.firstActive + ray;
        const fromM = RAY_SPANS.fromM[place]!;
        const toM = RAY_SPANS.toM[place]!;
        if (toM > fromM) taken.add(fromM / radiusM, toM / radiusM, radiusM * radiusM);
        continue;
      }
      const parts = merged.isSteep(ray) ? STEEP_PARTS : 1;
      const squaredRadius = (radiusM * radiusM) / parts;
      for (let part = 0; part < parts; part += 1) {
        merged.merge(ray, part);
        // Distances as shares of the ray's largest radius, so that one scale serves every ray.
        for (let span = 0; span < merged.count; span += 1) {
          taken.add(merged.spans[span * 2]! / radiusM, merged.spans[span * 2 + 1]! / radiusM, squaredRadius);
        }
      }
    }
  }
  return { volumeShare: shareOf(taken.volume, wholeVolume), leafShare: shareOf(taken.leaf, wholeVolume) };
}

/** Working space of one call after another, never read across calls. */
const RAY_SPANS = new RaySpans();

/** What the regions active in a band of heights take in one part of a ray, merged into disjoint spans of distance. */
class MergedSpans {
  readonly spans: Float64Array;
  count = 0;
  activeCount = 0;
  /** Where each active region begins in the columns of {@link RaySpans}. */
  readonly #active: Int32Array;

  constructor(regions: number) {
    this.spans = new Float64Array(regions * 2);
    this.#active = new Int32Array(regions);
  }

  begin(): void {
    this.activeCount = 0;
  }

  addActive(region: number): void {
    this.#active[this.activeCount] = region * RAY_COUNT;
    this.activeCount += 1;
  }

  /** Whether there is but one region, with one span on the ray at most: what most rays of most crowns have. */
  isSingle(ray: number): boolean {
    return this.activeCount === 1 && RAY_SPANS.steep[this.firstActive + ray]! < 0;
  }

  get firstActive(): number {
    return this.#active[0]!;
  }

  isSteep(ray: number): boolean {
    const { steep } = RAY_SPANS;
    for (let at = 0; at < this.activeCount; at += 1) if (steep[this.#active[at]! + ray]! >= 0) return true;
    return false;
  }

  /** Each region by itself, so that a union is made of the same pieces as its parts. */
  merge(ray: number, part: number): void {
    const { fromM: rayFromM, toM: rayToM, steep, parts } = RAY_SPANS;
    const { spans } = this;
    let count = 0;
    for (let at = 0; at < this.activeCount; at += 1) {
      const place = this.#active[at]! + ray;
      const steepAt = steep[place]!;
      let fromM = steepAt < 0 ? rayFromM[place]! : parts[steepAt + 2 * part]!;
      let toM = steepAt < 0 ? rayToM[place]! : parts[steepAt + 2 * part + 1]!;
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
    this.count = count;
  }
}

/** Nearer to the trunk than this share of the radius lies less than 1e-12 of a section; the closed forms lose their digits there. */
const AT_THE_TRUNK = 1e-6;

/** Places of the numbers of {@link TakenInBand}. */
const VOLUME = 0;
const LEAF = 1;
const VOLUME_WITHIN = 2;
const LEAF_WITHIN = 3;
const FROM_U = 4;
const TO_U = 5;
const BELOW_FROM = 6;
const BELOW_TO = 7;

/** Sums what spans of rays hold in bands of heights, in units where a whole ray holds its squared radius times the integral of f^2. */
class TakenInBand {
  /** In one typed array, as a number in a field of its own is made anew each time it changes. */
  readonly #numbers = new Float64Array(8);

  constructor(readonly habit: Habit) {}

  get volume(): number {
    return this.#numbers[VOLUME]!;
  }

  get leaf(): number {
    return this.#numbers[LEAF]!;
  }

  begin(fromU: number, toU: number): void {
    const numbers = this.#numbers;
    numbers[FROM_U] = fromU;
    numbers[TO_U] = toU;
    numbers[BELOW_FROM] = squaredShareBelow(this.habit, fromU);
    numbers[BELOW_TO] = squaredShareBelow(this.habit, toU);
  }

  /** Adds a span between two shares of a ray's radius; from 1 on it reaches the crown's edge. */
  add(inner: number, outer: number, squaredRadius: number): void {
    const numbers = this.#numbers;
    const bandShare = numbers[BELOW_TO]! - numbers[BELOW_FROM]!;
    if (inner < AT_THE_TRUNK && outer >= 1) {
      const whole = squaredRadius * bandShare;
      numbers[VOLUME]! += whole;
      numbers[LEAF]! += whole;
      return;
    }
    this.#within(inner);
    const innerVolume = numbers[VOLUME_WITHIN]!;
    const innerLeaf = numbers[LEAF_WITHIN]!;
    if (outer >= 1) {
      numbers[VOLUME]! += squaredRadius * (bandShare - innerVolume);
      numbers[LEAF]! += squaredRadius * (bandShare - innerLeaf);
    } else {
      this.#within(outer);
      numbers[VOLUME]! += squaredRadius * (numbers[VOLUME_WITHIN]! - innerVolume);
      numbers[LEAF]! += squaredRadius * (numbers[LEAF_WITHIN]! - innerLeaf);
    }
  }

  /**
   * What the band holds nearer to the trunk than `share` of the radius, in units where the whole band holds the integral
   * of f^2: min(share, f)^2 by volume and min(share, f)^4 / f^2 by leaf.
   */
  #within(share: number): void {
    const numbers = this.#numbers;
    if (share < AT_THE_TRUNK) {
      numbers[VOLUME_WITHIN] = 0;
      numbers[LEAF_WITHIN] = 0;
      return;
    }
    const { habit } = this;
    const toU = numbers[TO_U]!;
    const wideFromU = Math.max(numbers[FROM_U]!, Math.min(toU, lowestAt(habit, share)));
    const wideToU = Math.max(wideFromU, Math.min(toU, highestAt(habit, share)));
    const belowWideFrom = squaredShareBelow(habit, wideFromU);
    const narrow = belowWideFrom - numbers[BELOW_FROM]! + numbers[BELOW_TO]! - squaredShareBelow(habit, wideToU);
    const squared = share * share;
    numbers[VOLUME_WITHIN] = narrow + squared * (wideToU - wideFromU);
    numbers[LEAF_WITHIN] =
      wideToU > wideFromU ? narrow + squared * squared * inverseSquaredShareBetween(habit, wideFromU, wideToU) : narrow;
  }
}

/** Relative heights at which the set of active regions changes, ascending, from 0 to 1, each once. */
function heightBands(crown: Crown, regions: readonly RemovalRegion[]): Float64Array {
  const limits = new Float64Array(2 + 2 * regions.length);
  limits[1] = 1;
  let count = 2;
  for (const { lowM, highM } of regions) {
    count = withLimit(limits, count, relativeHeight(crown, lowM));
    count = withLimit(limits, count, relativeHeight(crown, highM));
  }
  return limits.subarray(0, count);
}

/** Puts a limit between 0 and 1 into its place among `count` ascending ones; gives how many there are then. */
function withLimit(limits: Float64Array, count: number, limit: number): number {
  if (!(limit > 0 && limit < 1)) return count;
  let at = count;
  while (limits[at - 1]! > limit) at -= 1;
  if (limits[at - 1] === limit) return count;
  limits.copyWithin(at + 1, at, count);
  limits[at] = limit;
  return count + 1;
}

const shareOf = (part: number, whole: number): number => Math.min(1, Math.max(0, part / whole));
