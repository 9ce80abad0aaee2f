import type { ConflictRecord, TreeSetting } from "../model/conflict.ts";
import type { LoadCaseId } from "../model/load-cases.ts";
import type { Prescription } from "../model/prescription.ts";
import { CERTAINTIES, CREWS } from "../model/terms.ts";
import type { Tree } from "../model/trees.ts";

/** A tree beside a wire that is referred, or inspected first, is looked at by people who may go near it. */
const REFERRED_CREW = CREWS.indexOf("line-clearance");

/** What one span comes to over some trees: plain data. */
export interface SpanSums {
  readonly inReach: number;
  readonly referred: number;
  readonly strikes: number;
  /** Conflicts by the order of `CERTAINTIES`. */
  readonly byCertainty: readonly number[];
  /** The most restricted crew that a tree in conflict needs next, its place in `CREWS`; -1 for none. */
  readonly crew: number;
  /** The first of the trees that come nearest. */
  readonly nearest: { readonly gapM: number; readonly loadCase: LoadCaseId | null; readonly treeId: string } | null;
}

/** A span that no tree is near. */
export const noSums = (): SpanSums => ({
  inReach: 0,
  referred: 0,
  strikes: 0,
  byCertainty: CERTAINTIES.map(() => 0),
  crew: -1,
  nearest: null,
});

/** What some trees come to, span by span, from lists in one order; a tree counts once at a span. */
export function partSpans(
  trees: readonly Tree[],
  settings: readonly TreeSetting[],
  conflicts: readonly ConflictRecord[],
  prescriptions: readonly Prescription[],
): Map<string, SpanSums> {
  const sums = new Map<string, SpanSums>();
  const add = (spanId: string, more: Partial<SpanSums>): void => {
    sums.set(spanId, plus(sums.get(spanId) ?? noSums(), { ...noSums(), ...more }));
  };
  for (const [at, { spans = [] }] of settings.entries()) {
    const inReach = new Set<string>();
    const strikes = new Set<string>();
    for (const { spanId, gapM, loadCase, canStrike } of spans) {
      if (canStrike && !strikes.has(spanId)) add(spanId, { strikes: 1 });
      if (canStrike) strikes.add(spanId);
      if (gapM === null) continue;
      const nearest = { gapM, loadCase, treeId: trees[at]?.id ?? "" };
      add(spanId, { inReach: inReach.has(spanId) ? 0 : 1, nearest });
      inReach.add(spanId);
    }
  }
  if (!conflicts.some(({ spanId }) => spanId !== null)) return sums;
  const byRow = new Map(settings.map(({ treeRow }, at) => [treeRow, prescriptions[at]]));
  const referred = new Set<string>();
  for (const { spanId, treeRow, certainty } of conflicts) {
    if (spanId === null) continue;
    const prescription = byRow.get(treeRow);
    const next = prescription?.visits[0]?.crew;
    const key = `${treeRow} ${spanId}`;
    const isReferred = (prescription?.refer ?? null) !== null && !referred.has(key);
    if (isReferred) referred.add(key);
    add(spanId, {
      byCertainty: CERTAINTIES.map((one) => (one === certainty ? 1 : 0)),
      crew: next === undefined ? REFERRED_CREW : CREWS.indexOf(next),
      referred: isReferred ? 1 : 0,
    });
  }
  return sums;
}

/** Adds what the trees that come next, in tree order, come to. */
export function addSpans(sums: Map<string, SpanSums>, more: ReadonlyMap<string, SpanSums>): void {
  for (const [spanId, one] of more) sums.set(spanId, plus(sums.get(spanId) ?? noSums(), one));
}

function plus(one: SpanSums, other: SpanSums): SpanSums {
  const isNearer = other.nearest !== null && (one.nearest === null || other.nearest.gapM < one.nearest.gapM);
  return {
    inReach: one.inReach + other.inReach,
    referred: one.referred + other.referred,
    strikes: one.strikes + other.strikes,
    byCertainty: one.byCertainty.map((count, at) => count + other.byCertainty[at]!),
    crew: Math.max(one.crew, other.crew),
    nearest: isNearer ? other.nearest : one.nearest,
  };
}
