import { RAY_COUNT } from "../model/conflict.ts";
import type { BandSums } from "./band-sums.ts";
import { MergedEntries } from "./merged-entries.ts";
import { ENTRY_NUMBERS, FROM_M, FROM_SHARE, NOTHING_TAKEN, TO_M } from "./ray-entries.ts";
import { type RegionOnRays, STEEP_PARTS } from "./region-on-rays.ts";

/** Unions that are remembered: those of a tree's cuts in the bands of its crown, which come again when cuts are tried at other heights. */
const REMEMBERED = 12;

/** What several regions take of each ray together. One object serves call after call; its arrays only grow. */
export class MergedRays {
  readonly #remembered: MergedEntries[] = Array.from({ length: REMEMBERED }, () => new MergedEntries());
  #next = 0;
  #spans = new Float64Array(16);

  /** Adds the union of the first `count` regions, which all take whatever they take to the crown's edge, so that on each ray the nearest begins it. */
  addToEdge(sums: BandSums, regions: readonly RegionOnRays[], count: number, radiiM: Float64Array): void {
    let merged = this.#remembered.find((one) => one.isOf(regions, count));
    if (merged === undefined) {
      merged = this.#remembered[this.#next]!;
      this.#next = (this.#next + 1) % REMEMBERED;
      merged.load(regions, count, radiiM);
    }
    sums.addToEdge(merged.entries, merged.length);
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
