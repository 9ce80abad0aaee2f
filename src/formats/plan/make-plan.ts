import { usCommonSource } from "../../core/standard/parse-standard.ts";
import { type ResolvedStandard, resolveStandard } from "../../core/standard/resolve-standard.ts";
import { carriedRun } from "../carry/carried-run.ts";
import { setAsideCollection } from "../geojson/set-aside-collection.ts";
import { type ReadingAllowance, UNBOUNDED } from "../read/reading-allowance.ts";
import { keepWhole } from "./part/keep-whole.ts";
import { startCrew } from "./part/part-crew.ts";
import type { StartPartThread } from "./part/part-thread.ts";
import { PART_TREES } from "./part/plan-in-parts.ts";
import { writeParts } from "./part/write-parts.ts";
import type { PlanOutput, PlanRequest, Progress } from "./plan-request.ts";
import { MemorySink, type PlanSink } from "./plan-sink.ts";
import { readRun } from "./read-run.ts";
import { RefusedInput } from "./refused-input.ts";
import { saidRun } from "./said-run.ts";

/** What a run may use; none of it changes a byte of the result. */
export interface PlanMeans {
  /** Threads that plan parts of the trees between them; default 1, this one. */
  readonly threads?: number;
  /** How another thread is started; without it there is one. */
  readonly startThread?: StartPartThread;
  /** Trees planned at once; default {@link PART_TREES}. */
  readonly partTrees?: number;
  /** Where the files go; default memory. */
  readonly sink?: PlanSink;
}

/**
 * A whole run from the bytes of the layers to the files of a revision. The same code serves the command line and the browser's worker.
 *
 * Trees are planned in parts, on as many threads as there are. Where zones or the cost of waiting are asked for, or an earlier plan is carried on, the whole plan is held in memory;
 * else each part becomes bytes at once. Throws {@link RefusedInput} with plain sentences when a file, the standard or a filter cannot be used, or is
 * past `allowance`; nothing is written here but into the sink.
 */
export async function makePlan(
  request: PlanRequest,
  onProgress: Progress,
  allowance: ReadingAllowance = UNBOUNDED,
  means: PlanMeans = {},
): Promise<PlanOutput> {
  const rules = standardOf(request.standardJson ?? usCommonSource);
  const sink = means.sink ?? new MemorySink();
  const isWhole = request.withZones || request.withWaiting === true || request.earlier !== undefined;
  if (isWhole && request.part !== undefined) {
    throw new RefusedInput([
      "A part of the trees is planned by itself: without zones, the cost of waiting or an earlier plan.",
    ]);
  }
  const read = await readRun(request, rules, sink, onProgress, allowance, isWhole);
  const carried = request.earlier === undefined ? read : await carriedRun(read, request.earlier, rules);
  const run = saidRun(carried, [...(carried.carrying?.words ?? []), ...(request.words ?? [])], sink);

  const partTrees = means.partTrees ?? PART_TREES;
  const threads = Math.min(means.threads ?? 1, Math.ceil(run.trees.length / partTrees));
  const crew = startCrew(run.ground, threads, means.startThread ?? null);
  try {
    const write = isWhole ? keepWhole : writeParts;
    const findings = await write({ ...run, partTrees }, crew, request, rules, sink, onProgress);
    for (const bytes of setAsideCollection(run.reads, run.setAside)) sink.write("set-aside.geojson", bytes);
    onProgress(1, "Done");
    return { planId: run.facts.planId, revision: request.revision, files: sink.end(), findings };
  } finally {
    crew.end();
  }
}

function standardOf(json: unknown): ResolvedStandard {
  const resolved = resolveStandard(json);
  if ("faults" in resolved) throw new RefusedInput(["The standard cannot be used.", ...resolved.faults]);
  return resolved;
}
