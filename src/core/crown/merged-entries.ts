import { RAY_COUNT } from "../model/conflict.ts";
import {
  BELOW_HIGH,
  BELOW_LOW,
  ENTRY_NUMBERS,
  FROM_M,
  FROM_SHARE,
  HIGH_U,
  LOW_U,
  NOTHING_TAKEN,
  WEIGHT,
} from "./ray-entries.ts";
import { type RegionOnRays, STEEP_PARTS } from "./region-on-rays.ts";

const PART_NUMBERS = STEEP_PARTS * ENTRY_NUMBERS;

/**
 * The entries of the union of regions that all take whatever they take to the crown's edge, so that the nearest of them begins it on each ray.
 * One object serves union after union.
 */
export class MergedEntries {
  entries: Float64Array = new Float64Array(2 * RAY_COUNT * ENTRY_NUMBERS);
  /** How many numbers of `entries` are in use. */
  length = 0;
  /** Serials of the regions that are held now. */
  readonly #serials: number[] = [];
  #count = 0;

  /** Whether it holds the union of the first `count` of some regions. */
  isOf(regions: readonly RegionOnRays[], count: number): boolean {
    if (this.#count !== count) return false;
    for (let at = 0; at < count; at += 1) if (this.#serials[at] !== regions[at]!.serial) return false;
    return true;
  }

  /** Merges the first `count` regions against rays that are `radiiM` long. */
  load(regions: readonly RegionOnRays[], count: number, radiiM: Float64Array): void {
    this.#count = count;
    this.length = 0;
    const nearestM = NEAREST_M;
    const nearest = NEAREST;
    const isSteep = IS_STEEP;
    nearestM.set(regions[0]!.rayFromM);
    nearest.fill(0);
    isSteep.set(regions[0]!.isSteep);
    for (let at = 0; at < count; at += 1) {
      const { rayFromM, isSteep: isSteepThere, steepCount, serial } = regions[at]!;
      this.#serials[at] = serial;
      for (let ray = 0; ray < RAY_COUNT; ray += 1) {
        const fromM = rayFromM[ray]!;
        if (fromM >= nearestM[ray]!) continue;
        nearestM[ray] = fromM;
        nearest[ray] = at;
      }
      if (steepCount === 0) continue;
      for (let ray = 0; ray < RAY_COUNT; ray += 1) if (isSteepThere[ray] === 1) isSteep[ray] = 1;
    }
    for (let ray = 0; ray < RAY_COUNT; ray += 1) {
      if (isSteep[ray] === 1) this.#addParts(regions, count, ray, (radiiM[ray]! * radiiM[ray]!) / STEEP_PARTS);
      else if (nearestM[ray]! < Number.POSITIVE_INFINITY) {
        const region = regions[nearest[ray]!]!;
        this.#reserve(ENTRY_NUMBERS);
        const start = region.startOf[ray]!;
        copyEntry(region.entries, start, this.entries, this.length);
        this.entries[this.length + WEIGHT] = region.entries[start + WEIGHT]!;
        this.length += ENTRY_NUMBERS;
      }
    }
  }

  #addParts(regions: readonly RegionOnRays[], count: number, ray: number, weight: number): void {
    this.#reserve(PART_NUMBERS);
    const { entries } = this;
    const begin = this.length;
    this.length += PART_NUMBERS;
    for (let place = begin; place < this.length; place += ENTRY_NUMBERS) {
      entries[place + FROM_M] = Number.POSITIVE_INFINITY;
      entries[place + FROM_SHARE] = NOTHING_TAKEN;
      entries[place + WEIGHT] = weight;
    }
    for (let at = 0; at < count; at += 1) {
      const region = regions[at]!;
      let start = region.startOf[ray]!;
      if (start < 0) continue;
      const step = region.isSteep[ray] === 1 ? ENTRY_NUMBERS : 0;
      const from = region.entries;
      for (let place = begin; place < this.length; place += ENTRY_NUMBERS) {
        if (from[start + FROM_M]! < entries[place + FROM_M]!) copyEntry(from, start, entries, place);
        start += step;
      }
    }
  }

  #reserve(numbers: number): void {
    if (this.length + numbers <= this.entries.length) return;
    const longer = new Float64Array(2 * this.entries.length + numbers);
    longer.set(this.entries);
    this.entries = longer;
  }
}

/** Working space of one union after another, never read across calls. */
const NEAREST_M = new Float64Array(RAY_COUNT);
const NEAREST = new Int32Array(RAY_COUNT);
const IS_STEEP = new Uint8Array(RAY_COUNT);

/** All but the end, which is the crown's edge, and the weight. */
function copyEntry(from: Float64Array, start: number, to: Float64Array, place: number): void {
  to[place + FROM_M] = from[start + FROM_M]!;
  to[place + FROM_SHARE] = from[start + FROM_SHARE]!;
  to[place + LOW_U] = from[start + LOW_U]!;
  to[place + HIGH_U] = from[start + HIGH_U]!;
  to[place + BELOW_LOW] = from[start + BELOW_LOW]!;
  to[place + BELOW_HIGH] = from[start + BELOW_HIGH]!;
}
