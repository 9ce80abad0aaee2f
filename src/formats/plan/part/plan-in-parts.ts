import { HiddenCollector } from "../../../core/conflict/hidden/hidden-collector.ts";
import { TrunkNumbers } from "../../../core/conflict/trunk-numbers.ts";
import type { SightArea } from "../../../core/model/surroundings.ts";
import type { Tree } from "../../../core/model/trees.ts";
import type { PartGround } from "../../../core/plan-part.ts";
import type { ReadRun } from "../read-run.ts";
import type { PartCrew } from "./part-crew.ts";
import type { PartFound } from "./part-messages.ts";

/** Trees of a part: enough that what a part costs by itself is little, few enough that a part's objects and bytes are. */
export const PART_TREES = 1000;

/** A run with the number of trees that are planned at once. */
export type RunInParts = ReadRun & { readonly partTrees: number };

/** What is looked at in parts. */
export interface InParts {
  readonly ground: PartGround;
  /** All trees of the run, in input order. */
  readonly trees: readonly Tree[];
  readonly crew: PartCrew;
  readonly partTrees: number;
  /** Which trees are planned, in input order; all where left out. What they hide together is always told of all. */
  readonly isWanted?: (tree: Tree) => boolean;
  /** Called with the share done, 0 to 1. */
  readonly onProgress: (share: number) => void;
}

/** Share of the work that goes into looking for what trees hide, measured on cities; for the bar that shows progress. */
const HIDING_SHARE = 0.1;

/**
 * Plans the wanted trees in parts and gives each part to `take` in input order; the areas of sight come back with what all trees hide of them. Two
 * rounds: what trees hide together has to be known before the first is planned.
 */
export async function planInParts<T extends "encode" | "keep">(
  { ground, trees, crew, partTrees, isWanted, onProgress }: InParts,
  type: T,
  take: (found: PartFound[T], trees: readonly Tree[]) => void,
): Promise<readonly SightArea[]> {
  const parts = partsOf(trees, partTrees);
  const hidden = new HiddenCollector(ground.standard);
  const trunks = new TrunkNumbers();
  if (ground.surroundings.envelopes.some((one) => one.type === "sight")) {
    const works = parts.map((part, number) => ({ type: "hiders" as const, number, trees: part }));
    let looked = 0;
    await crew.doAll<"hiders">(works, (found) => {
      hidden.take(found.hiders, ground.surroundings);
      trunks.count(found.trunks);
      looked += 1;
      onProgress((HIDING_SHARE * looked) / parts.length);
    });
  }
  const sight = hidden.finish(ground.surroundings);
  crew.know(sight);

  const wanted = parts.map((part) => (isWanted === undefined ? part : part.filter(isWanted)));
  const numbers = wanted.flatMap((part, number) => (part.length === 0 ? [] : [number]));
  let done = 0;
  const works = numbers.map((number, at) => ({
    type,
    number: at,
    trees: wanted[number]!,
    trunkNumbers: trunks.ofPart(wanted[number]!),
  }));
  await crew.doAll<T>(works as unknown as Parameters<typeof crew.doAll<T>>[0], (found) => {
    take(found, wanted[numbers[done]!]!);
    done += 1;
    onProgress(HIDING_SHARE + ((1 - HIDING_SHARE) * done) / numbers.length);
  });
  return sight;
}

function partsOf(trees: readonly Tree[], partTrees: number): Tree[][] {
  const parts: Tree[][] = [];
  for (let from = 0; from < trees.length; from += partTrees) parts.push(trees.slice(from, from + partTrees));
  return parts;
}
