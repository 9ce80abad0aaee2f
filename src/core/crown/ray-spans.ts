import { RAY_COUNT, type RemovalRegion } from "../model/conflict.ts";

/** Parts that a ray is divided into where an edge moves along it by more than {@link STEEP_SHARE} of the radius from ray to ray. */
export const STEEP_PARTS = 8;
const STEEP_SHARE = 0.1;
/** Numbers kept of a ray that an edge crosses steeply: where each part begins and ends. */
const STEEP_NUMBERS = 2 * STEEP_PARTS;

/**
 * What regions take of each ray, by region and ray, in meters from the trunk's axis, cut at the crown's edge. It does not depend on height, so it is
 * worked out once for all bands of heights. One object serves call after call; its arrays only grow.
 */
export class RaySpans {
  /** Where region `r` begins and ends on a ray, at `r * RAY_COUNT + ray`; it takes nothing unless the end is the greater. */
  fromM: Float64Array = new Float64Array(8 * RAY_COUNT);
  toM: Float64Array = new Float64Array(8 * RAY_COUNT);
  /** At the same place, where the parts of a ray crossed steeply begin in `parts`; -1 for all other rays. */
  steep: Int32Array = new Int32Array(8 * RAY_COUNT);
  /** Begin and end of each part of the rays crossed steeply. */
  parts: Float64Array = new Float64Array(32 * STEEP_NUMBERS);
  /** Whether any region takes something of a ray. */
  readonly isMet: Uint8Array = new Uint8Array(RAY_COUNT);
  #partsLength = 0;

  /** Works out the regions against a crown whose rays are `radiiM` long. */
  load(regions: readonly RemovalRegion[], radiiM: Float64Array): void {
    const needed = regions.length * RAY_COUNT;
    if (needed > this.fromM.length) {
      this.fromM = new Float64Array(2 * needed);
      this.toM = new Float64Array(2 * needed);
      this.steep = new Int32Array(2 * needed);
    }
    this.isMet.fill(0);
    this.#partsLength = 0;
    for (let at = 0; at < regions.length; at += 1) this.#loadRegion(regions[at]!, at * RAY_COUNT, radiiM);
  }

  #loadRegion(region: RemovalRegion, start: number, radiiM: Float64Array): void {
    const { isMet } = this;
    const regionFromM = region.fromM;
    const regionToM = region.toM;
    let before = regionFromM[RAY_COUNT - 1]!;
    let here = regionFromM[0]!;
    for (let ray = 0; ray < RAY_COUNT; ray += 1) {
      const after = regionFromM[ray + 1 === RAY_COUNT ? 0 : ray + 1]!;
      const radiusM = radiiM[ray]!;
      const fromM = Math.max(0, here);
      const toM = Math.min(radiusM, regionToM[ray]!);
      this.fromM[start + ray] = fromM;
      this.toM[start + ray] = toM;
      if (toM > fromM) isMet[ray] = 1;
      if ((here === before && here === after) || !isSteep(before, here, after, radiusM)) {
        this.steep[start + ray] = -1;
      } else {
        this.steep[start + ray] = this.#addSteep(region, ray, radiusM);
        isMet[ray] = 1;
      }
      before = here;
      here = after;
    }
  }

  #addSteep({ fromM, toM }: RemovalRegion, ray: number, radiusM: number): number {
    const at = this.#partsLength;
    this.#partsLength += STEEP_NUMBERS;
    if (this.#partsLength > this.parts.length) {
      const longer = new Float64Array(2 * this.parts.length);
      longer.set(this.parts);
      this.parts = longer;
    }
    const { parts } = this;
    for (let part = 0; part < STEEP_PARTS; part += 1) {
      const offset = (part + 0.5) / STEEP_PARTS - 0.5;
      // A ray that misses the region has no end to it: its neighbor's holds.
      const endRay =
        fromM[ray]! < Number.POSITIVE_INFINITY ? ray : (ray + (offset > 0 ? 1 : RAY_COUNT - 1)) % RAY_COUNT;
      parts[at + 2 * part] = Math.max(0, edgeBetweenM(fromM, ray, offset, radiusM));
      parts[at + 2 * part + 1] = Math.min(radiusM, toM[endRay]!);
    }
    return at;
  }
}

function isSteep(beforeM: number, hereM: number, afterM: number, radiusM: number): boolean {
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
