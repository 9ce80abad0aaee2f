import type { RemovalRegion } from "../model/conflict.ts";
import type { Habit } from "../model/terms.ts";
import { RegionOnRays } from "./region-on-rays.ts";

/** Regions that are remembered: more than a tree's cuts and the buildings around it. */
const REMEMBERED = 24;

/**
 * Regions worked out against the rays of one crown. A tree is asked for the dose of the same regions again and again, cut at other heights, so what
 * they take of each ray is remembered as long as the crown stays the same; columns of a region must not change once its dose was asked for.
 * One object serves call after call.
 */
export class RaySpans {
  /** The regions of the last call, in their order, at the beginning of a list that only grows. */
  readonly regions: RegionOnRays[] = [];
  readonly #remembered: RegionOnRays[] = [];
  #used = 0;
  #next = 0;
  #radiiM: Float64Array | null = null;
  #habit: Habit | null = null;

  load(regions: readonly RemovalRegion[], radiiM: Float64Array, habit: Habit): void {
    if (radiiM !== this.#radiiM || habit !== this.#habit) {
      this.#radiiM = radiiM;
      this.#habit = habit;
      this.#used = 0;
      this.#next = 0;
    }
    const most = Math.max(REMEMBERED, 2 * regions.length);
    for (let at = 0; at < regions.length; at += 1) {
      const region = regions[at]!;
      let place = this.#find(region);
      if (place === null) {
        place = this.#free(most, at);
        place.load(region, radiiM, habit);
      }
      this.regions[at] = place;
    }
  }

  #find({ fromM, toM }: RemovalRegion): RegionOnRays | null {
    const remembered = this.#remembered;
    for (let at = this.#used - 1; at >= 0; at -= 1) {
      const one = remembered[at]!;
      if (one.fromM === fromM && one.toM === toM) return one;
    }
    return null;
  }

  /** A place for one more region: a new one, else one that this call, which has `taken` some, has no use for. */
  #free(most: number, taken: number): RegionOnRays {
    const remembered = this.#remembered;
    if (this.#used < most) {
      if (this.#used === remembered.length) remembered.push(new RegionOnRays());
      this.#used += 1;
      return remembered[this.#used - 1]!;
    }
    for (;;) {
      this.#next = (this.#next + 1) % most;
      const place = remembered[this.#next]!;
      if (this.regions.lastIndexOf(place, taken - 1) < 0 || taken === 0) return place;
    }
  }
}
