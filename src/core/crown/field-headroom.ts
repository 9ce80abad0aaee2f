import type { ConflictRecord } from "../model/conflict.ts";
import type { ConflictKind } from "../model/terms.ts";
import type { Tree } from "../model/trees.ts";

/** Kinds of ways that a headroom measured over the road can belong to. */
const ROADS: ReadonlySet<ConflictKind> = new Set(["roadway", "bus-route", "fire-lane"]);
/** A plan's files keep millimeters. */
const SAME_M = 0.001;

/** Whether a conflict's headroom is the one that was measured in the field over the road, which outranks the crown's model. */
export const isFieldHeadroom = (tree: Tree, { kind, measuredM }: ConflictRecord): boolean =>
  tree.headroomOverRoadM !== null && ROADS.has(kind) && Math.abs(measuredM - tree.headroomOverRoadM) <= SAME_M;
