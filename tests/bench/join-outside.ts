import { planeOf, toPlane } from "../../src/core/plane/plane.ts";
import { JOIN_M, type JoinInput } from "./join-by-own-index.ts";
import type { Usage } from "./run-process.ts";

/** What a program outside this process made of a join: each run's usage, and the sum in meters it gave every time. */
export interface OutsideJoin {
  readonly usages: readonly Usage[];
  readonly sumM: number;
}

/** Places of trees and corners of buildings in meters, all in the plane of the first tree. */
export function projectedJoin({ trees, buildings }: JoinInput): JoinInput {
  const plane = planeOf(trees[0]![0]!);
  const projected = ([lonDeg, latDeg]: readonly number[]) => toPlane(plane, lonDeg!, latDeg!);
  return { trees: trees.map(projected), buildings: buildings.map((ring) => ring.map(projected)) };
}

/** A projected join as doubles: trees, buildings, meters to look, then all places, a count of corners before those of each building. */
export function doublesOf({ trees, buildings }: JoinInput): Float64Array {
  const corners = buildings.flatMap((ring) => [ring.length, ...ring.flat()]);
  return Float64Array.from([trees.length, buildings.length, JOIN_M, ...trees.flat(), ...corners].values());
}

/** The runs of a program that gave the same sum every time; throws when it did not. */
export function sameEveryTime(runs: readonly (Usage & { readonly sumM: number })[]): OutsideJoin {
  const sums = new Set(runs.map(({ sumM }) => sumM));
  if (sums.size !== 1) throw new Error(`The join gave ${sums.size} different sums`);
  return { usages: runs, sumM: [...sums][0]! };
}
