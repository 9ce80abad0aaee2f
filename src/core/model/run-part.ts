import type { Tree } from "./trees.ts";

/**
 * Which trees of a run are planned: the `index`th of `count` equal stretches of the trees in input order, counted from 1, or the trees in a box of
 * longitude and latitude, its edges included; `westDeg` is greater than `eastDeg` where the box crosses the antimeridian.
 */
export type RunPart =
  | { readonly shard: { readonly index: number; readonly count: number } }
  | {
      readonly bbox: {
        readonly westDeg: number;
        readonly southDeg: number;
        readonly eastDeg: number;
        readonly northDeg: number;
      };
    };

/** Whether a tree is in the part, of so many trees of the run. Every tree is in exactly one shard. */
export function isInPart(part: RunPart, { row, lonDeg, latDeg }: Tree, trees: number): boolean {
  if ("shard" in part) {
    const { index, count } = part.shard;
    return row >= Math.floor(((index - 1) * trees) / count) && row < Math.floor((index * trees) / count);
  }
  const { westDeg, southDeg, eastDeg, northDeg } = part.bbox;
  if (latDeg < southDeg || latDeg > northDeg) return false;
  return westDeg <= eastDeg ? lonDeg >= westDeg && lonDeg <= eastDeg : lonDeg >= westDeg || lonDeg <= eastDeg;
}

/** A part as it was asked for: `shard 2/4` or `bbox W,S,E,N`. */
export function partText(part: RunPart): string {
  if ("shard" in part) return `shard ${part.shard.index}/${part.shard.count}`;
  const { westDeg, southDeg, eastDeg, northDeg } = part.bbox;
  return `bbox ${westDeg},${southDeg},${eastDeg},${northDeg}`;
}
