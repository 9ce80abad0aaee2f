import { RAY_COUNT } from "../model/conflict.ts";
import type { BandSums } from "./band-sums.ts";
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
import { type RegionOnRays, STEEP_PARTS } from "./region-on-rays.ts";

/** What several regions take of each ray together. One object serves call after call; its arrays only grow. */
export class MergedRays {
  readonly #entries = new Float64Array(STEEP_PARTS * RAY_COUNT * ENTRY_NUMBERS);
  readonly #nearestM = new Float64Array(RAY_COUNT);
  readonly #nearest = new Int32Array(RAY_COUNT);
  readonly #isSteep = new Uint8Array(RAY_COUNT);
  #spans = new Float64Array(16);

  /** Adds the union of the first `count` regions, which all take whatever they take to the crown's edge, so that on each ray the nearest begins it. */
  addToEdge(sums: BandSums, regions: readonly RegionOnRays[], count: number, radiiM: Float64Array): void {
    const entries = this.#entries;
    const nearestM = this.#nearestM;
    const nearest = this.#nearest;
    const isSteep = this.#isSteep;
    nearestM.set(regions[0]!.rayFromM);
    nearest.fill(0);
    isSteep.set(regions[0]!.isSteep);
    for (let at = 1; at < count; at += 1) {
      const { rayFromM, isSteep: isSteepThere, steepCount } = regions[at]!;
      for (let ray = 0; ray < RAY_COUNT; ray += 1) {
        const fromM = rayFromM[ray]!;
        if (fromM >= nearestM[ray]!) continue;
        nearestM[ray] = fromM;
        nearest[ray] = at;
      }
      if (steepCount === 0) continue;
      for (let ray = 0; ray < RAY_COUNT; ray += 1) if (isSteepThere[ray] === 1) isSteep[ray] = 1;
    }
    let length = 0;
    for (let ray = 0; ray < RAY_COUNT; ray += 1) {
      if (isSteep[ray] === 1) {
        length = this.#addParts(regions, count, ray, (radiiM[ray]! * radiiM[ray]!) / STEEP_PARTS, length);
      } else if (nearestM[ray]! < Number.POSITIVE_INFINITY) {
        const region = regions[nearest[ray]!]!;
        copyEntry(region.entries, region.startOf[ray]!, entries, length);
        length += ENTRY_NUMBERS;
      }
    }
    sums.addToEdge(entries, length);
  }

  /** Puts the parts of a ray that is crossed steeply behind the first `length` numbers; gives how many there are then. */
  #addParts(regions: readonly RegionOnRays[], count: number, ray: number, weight: number, length: number): number {
    const entries = this.#entries;
    let end = length;
    for (let part = 0; part < STEEP_PARTS; part += 1) {
      let nearest: RegionOnRays | null = null;
      let nearestM = Number.POSITIVE_INFINITY;
      for (let at = 0; at < count; at += 1) {
        const region = regions[at]!;
        const start = entryOf(region, ray, part);
        if (start < 0) continue;
        const fromM = region.entries[start + FROM_M]!;
        if (fromM >= nearestM) continue;
        nearest = region;
        nearestM = fromM;
      }
      if (nearest === null) continue;
      copyEntry(nearest.entries, entryOf(nearest, ray, part), entries, end);
      entries[end + WEIGHT] = weight;
      end += ENTRY_NUMBERS;
    }
    return end;
  }

  /** Adds the union of the first `count` regions of any kind, in each part of each ray merged into disjoint spans. */
  addSpans(sums: BandSums, regions: readonly RegionOnRays[], count: number, radiiM: Float64Array): void {
    if (this.#spans.length < 2 * count) this.#spans = new Float64Array(4 * count);
    for (let ray = 0; ray < RAY_COUNT; ray += 1) {
      const radiusM = radiiM[ray]!;
      const parts = isAnySteep(regions, count, ray) ? STEEP_PARTS : 1;
      const weight = (radiusM * radiusM) / parts;
      for (let part = 0; part < parts; part += 1) {
        const spans = this.#merge(regions, count, ray, part);
        for (let span = 0; span < spans; span += 1) {
          sums.addSpan(this.#spans[span * 2]! / radiusM, this.#spans[span * 2 + 1]! / radiusM, weight);
        }
      }
    }
  }

  /** Each region by itself, so that a union is made of the same pieces as its parts; gives the number of spans. */
  #merge(regions: readonly RegionOnRays[], among: number, ray: number, part: number): number {
    const spans = this.#spans;
    let count = 0;
    for (let at = 0; at < among; at += 1) {
      const region = regions[at]!;
      const start = entryOf(region, ray, part);
      if (start < 0 || region.entries[start + FROM_SHARE] === NOTHING_TAKEN) continue;
      let fromM = region.entries[start + FROM_M]!;
      let toM = region.entries[start + TO_M]!;
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
}

/** Where the entry of a part of a ray begins; that of the whole ray where it is not crossed steeply, -1 where it is not met. */
const entryOf = (region: RegionOnRays, ray: number, part: number): number =>
  region.isSteep[ray] === 1 ? region.startOf[ray]! + part * ENTRY_NUMBERS : region.startOf[ray]!;

function isAnySteep(regions: readonly RegionOnRays[], count: number, ray: number): boolean {
  for (let at = 0; at < count; at += 1) if (regions[at]!.isSteep[ray] === 1) return true;
  return false;
}

/** All but the end, which is the crown's edge. */
function copyEntry(from: Float64Array, start: number, to: Float64Array, place: number): void {
  to[place + FROM_SHARE] = from[start + FROM_SHARE]!;
  to[place + WEIGHT] = from[start + WEIGHT]!;
  to[place + LOW_U] = from[start + LOW_U]!;
  to[place + HIGH_U] = from[start + HIGH_U]!;
  to[place + BELOW_LOW] = from[start + BELOW_LOW]!;
  to[place + BELOW_HIGH] = from[start + BELOW_HIGH]!;
}
