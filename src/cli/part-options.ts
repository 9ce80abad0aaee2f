import type { RunPart } from "../core/model/run-part.ts";
import { usageError } from "./exit-codes.ts";

/** What `--bbox` and `--shard` say to people. */
export const BBOX_HELP = "plan only the trees in this box, W,S,E,N in degrees; everything else is read as for all";
export const SHARD_HELP = "plan only the i-th of n equal stretches of the trees, i/n, as one of n machines";

/** Options that choose a part of the trees, as typed. */
export interface PartOptions {
  readonly bbox?: string;
  readonly shard?: string;
}

/** The part that is asked for; null for all trees. Throws CommandError for what is no part. */
export function partOf({ bbox, shard }: PartOptions): RunPart | null {
  if (bbox !== undefined && shard !== undefined) throw usageError("Give --bbox or --shard, not both.");
  if (bbox !== undefined) return boxOf(bbox);
  return shard === undefined ? null : shardOf(shard);
}

function boxOf(text: string): RunPart {
  const numbers = text.split(",").map((part) => (part.trim() === "" ? Number.NaN : Number(part)));
  const [westDeg, southDeg, eastDeg, northDeg] = numbers as [number, number, number, number];
  const isBox =
    numbers.length === 4 &&
    [westDeg, eastDeg].every((deg) => Math.abs(deg) <= 180) &&
    [southDeg, northDeg].every((deg) => Math.abs(deg) <= 90) &&
    southDeg <= northDeg;
  if (!isBox) {
    throw usageError(`--bbox takes west,south,east,north in degrees, got "${text.slice(0, 80)}".`);
  }
  return { bbox: { westDeg, southDeg, eastDeg, northDeg } };
}

function shardOf(text: string): RunPart {
  const [, index = 0, count = 0] = (/^(\d{1,6})\/(\d{1,6})$/.exec(text.trim().slice(0, 20)) ?? []).map(Number);
  if (!(index >= 1 && index <= count)) {
    throw usageError(`--shard takes i/n with i from 1 to n, such as 2/4, got "${text.slice(0, 80)}".`);
  }
  return { shard: { index, count } };
}
