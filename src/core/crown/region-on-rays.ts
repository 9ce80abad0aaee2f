import { RAY_COUNT, type RemovalRegion } from "../model/conflict.ts";
import type { Habit } from "../model/terms.ts";
import { highestAt, lowestAt } from "./profile.ts";
import { squaredShareBelow } from "./profile-integral.ts";
import {
  BELOW_HIGH,
  BELOW_LOW,
  ENTRY_NUMBERS,
  FROM_M,
  FROM_SHARE,
  HIGH_U,
  LOW_U,
  NOTHING_TAKEN,
  TO_M,
  WEIGHT,
} from "./ray-entries.ts";

/** Parts that a ray is divided into where an edge moves along it by more than {@link STEEP_SHARE} of the radius from ray to ray. */
export const STEEP_PARTS = 8;
const STEEP_SHARE = 0.1;

const NONE = new Float64Array(0);
let serials = 0;

/**
 * What one region takes of each ray of a crown, cut at the crown's edge: one entry for a ray that it meets, one for each part of a ray that its
 * edge crosses steeply, in the order of the rays. One object serves region after region.
 */
export class RegionOnRays {
  entries: Float64Array = new Float64Array(2 * RAY_COUNT * ENTRY_NUMBERS);
  /** How many numbers of `entries` are in use. */
  length = 0;
  /** Where the first entry of each ray begins; -1 for a ray that is not met. */
  readonly startOf: Int32Array = new Int32Array(RAY_COUNT);
  /** Where what is taken of each ray begins, meters from the trunk's axis; +Infinity for rays that are not met or crossed steeply. */
  readonly rayFromM: Float64Array = new Float64Array(RAY_COUNT);
  /** Whether a ray is crossed steeply, and how many are. */
  readonly isSteep: Uint8Array = new Uint8Array(RAY_COUNT);
  steepCount = 0;
  /** Whether all that is taken reaches to the crown's edge, as what pruning cuts off does. */
  isToEdge = true;
  /** Another number for every region that was ever held, by which unions of regions are known again. */
  serial = 0;
  /** The region that is held now, by the columns that describe it. */
  fromM: Float64Array = NONE;
  toM: Float64Array = NONE;

  /** Works out a region against a crown of a habit whose rays are `radiiM` long. */
  load(region: RemovalRegion, radiiM: Float64Array, habit: Habit): void {
    const { startOf, rayFromM, isSteep } = this;
    const { fromM, toM } = region;
    this.fromM = fromM;
    this.toM = toM;
    serials += 1;
    this.serial = serials;
    this.length = 0;
    this.isToEdge = true;
    this.steepCount = 0;
    let beforeM = fromM[RAY_COUNT - 1]!;
    let hereM = fromM[0]!;
    for (let ray = 0; ray < RAY_COUNT; ray += 1) {
      const afterM = fromM[ray + 1 === RAY_COUNT ? 0 : ray + 1]!;
      const radiusM = radiiM[ray]!;
      startOf[ray] = -1;
      isSteep[ray] = 0;
      rayFromM[ray] = Number.POSITIVE_INFINITY;
      if ((hereM !== beforeM || hereM !== afterM) && isCrossedSteeply(beforeM, hereM, afterM, radiusM)) {
        startOf[ray] = this.length;
        isSteep[ray] = 1;
        this.steepCount += 1;
        this.#addParts(fromM, toM, ray, radiusM, habit);
      } else {
        const startM = Math.max(0, hereM);
        const endM = Math.min(radiusM, toM[ray]!);
        if (endM > startM) {
          startOf[ray] = this.length;
          rayFromM[ray] = startM;
          this.#add(startM, endM, radiusM, radiusM * radiusM, habit);
        }
      }
      beforeM = hereM;
      hereM = afterM;
    }
  }

  #addParts(fromM: Float64Array, toM: Float64Array, ray: number, radiusM: number, habit: Habit): void {
    const weight = (radiusM * radiusM) / STEEP_PARTS;
    for (let part = 0; part < STEEP_PARTS; part += 1) {
      const offset = (part + 0.5) / STEEP_PARTS - 0.5;
      // A ray that misses the region has no end to it: its neighbor's holds.
      const endRay =
        fromM[ray]! < Number.POSITIVE_INFINITY ? ray : (ray + (offset > 0 ? 1 : RAY_COUNT - 1)) % RAY_COUNT;
      const startM = Math.max(0, edgeBetweenM(fromM, ray, offset, radiusM));
      this.#add(startM, Math.min(radiusM, toM[endRay]!), radiusM, weight, habit);
    }
  }

  #add(startM: number, endM: number, radiusM: number, weight: number, habit: Habit): void {
    const at = this.length;
    this.length += ENTRY_NUMBERS;
    if (this.length > this.entries.length) {
      const longer = new Float64Array(2 * this.entries.length);
      longer.set(this.entries);
      this.entries = longer;
    }
    const { entries } = this;
    entries[at + WEIGHT] = weight;
    if (!(endM > startM)) {
      entries[at + FROM_M] = Number.POSITIVE_INFINITY;
      entries[at + FROM_SHARE] = NOTHING_TAKEN;
      return;
    }
    if (endM !== radiusM) this.isToEdge = false;
    // As a share of the ray's largest radius, so that one scale serves every ray.
    const share = startM / radiusM;
    entries[at + FROM_M] = startM;
    entries[at + TO_M] = endM;
    entries[at + FROM_SHARE] = share;
    if (startM === 0) return;
    const lowU = lowestAt(habit, share);
    const highU = highestAt(habit, share);
    entries[at + LOW_U] = lowU;
    entries[at + HIGH_U] = highU;
    entries[at + BELOW_LOW] = squaredShareBelow(habit, lowU);
    entries[at + BELOW_HIGH] = squaredShareBelow(habit, highU);
  }
}

function isCrossedSteeply(beforeM: number, hereM: number, afterM: number, radiusM: number): boolean {
  const edgeM = Math.min(radiusM, hereM);
  const beforeMovesM = Math.abs(Math.min(radiusM, beforeM) - edgeM);
  return Math.max(beforeMovesM, Math.abs(Math.min(radiusM, afterM) - edgeM)) > STEEP_SHARE * radiusM;
}

/**
 * Distance in meters at which a region begins, `offset` of a ray's width (-0.5 to 0.5, not 0) beside the middle of a ray; +Infinity where it is not.
 *
 * Along a straight edge the inverse of the distance is a cosine of the angle, which between two rays is a straight line to a few parts in ten
 * thousand. Where only one of the two rays meets the region, that line goes on if it leaves the crown before the next ray; else the
 * region ends abruptly, halfway for want of better, as where it reaches the trunk's axis.
 */
function edgeBetweenM(fromM: Float64Array, ray: number, offset: number, radiusM: number): number {
  const edgeM = fromM[ray]!;
  if (edgeM <= 0) return edgeM;
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
