import type { FeatureCollection, Point } from "geojson";
import type { ConflictRecord } from "../../core/model/conflict.ts";
import type { Plan } from "../../core/model/plan.ts";
import type { Prescription } from "../../core/model/prescription.ts";
import { CERTAINTIES, CONFLICT_KINDS, URGENCIES } from "../../core/model/terms.ts";
import type { Tree } from "../../core/model/trees.ts";
import type { TreeOnDate } from "../../core/schedule/tree-on-date.ts";
import { CLEAR_IMAGE, markImageId } from "../symbols/mark-images.ts";
import { markShape } from "../symbols/mark-shape.ts";
import { TOKENS } from "../tokens.ts";
import { zoomAtPx } from "./ground-scale.ts";

/** What the layers need of a tree; flat, so that styles can read it. */
export type TreeMark = {
  readonly tree: string;
  readonly urgency: string;
  readonly overdue: boolean;
  readonly certainty: string;
  readonly remedy: string;
  readonly image: string;
  /** The image far out, where a broken outline would only be noise. */
  readonly farImage: string;
  /** Bearing the mark is turned to, degrees; 0 for marks that do not turn. */
  readonly turn: number;
  /** Whether nothing was found that wants work now or later; drawn as a dot. Says nothing of what was not checked. */
  readonly quiet: boolean;
  /** Higher is drawn on top: the more urgent. */
  readonly order: number;
  readonly due: string;
  readonly crew: string;
  readonly zone: string;
  /** Conflict kinds between commas, with a comma at both ends, so that a style can look for `,walkway,`. */
  readonly kinds: string;
  /** Zoom at which the crown begins to be drawn at true size. */
  readonly shows: number;
};

/** The marks of a plan's trees, in tree order; on another date where how the trees stand on it is given. */
export function treeMarks(plan: Plan, dated: { treeOn(row: number): TreeOnDate } | null = null): TreeMark[] {
  const conflictsOf = new Map<string, ConflictRecord[]>();
  for (const conflict of plan.conflicts) {
    const list = conflictsOf.get(conflict.treeId);
    if (list === undefined) conflictsOf.set(conflict.treeId, [conflict]);
    else list.push(conflict);
  }
  const zoneOf = zoneByTree(plan);
  return plan.trees.map((tree, row) =>
    treeMark(
      tree,
      plan.prescriptions[row]!,
      conflictsOf.get(tree.id) ?? [],
      zoneOf.get(tree.id) ?? "",
      dated?.treeOn(row) ?? null,
    ),
  );
}

/** The id of each tree's zone, as marks name it. */
export const zoneByTree = (plan: Plan): ReadonlyMap<string, string> =>
  new Map(plan.zones.flatMap((zone) => zone.treeIds.map((treeId) => [treeId, zone.zoneId] as const)));

/** The marks as points. */
export function markFeatures(plan: Plan, marks: readonly TreeMark[]): FeatureCollection<Point> {
  return {
    type: "FeatureCollection",
    features: plan.trees.map((tree, row) => ({
      type: "Feature",
      properties: { ...marks[row]! },
      geometry: { type: "Point", coordinates: [tree.lonDeg, tree.latDeg] },
    })),
  };
}

function treeMark(
  tree: Tree,
  prescription: Prescription,
  conflicts: readonly ConflictRecord[],
  zone: string,
  onDate: TreeOnDate | null,
): TreeMark {
  const { remedy } = prescription;
  const { urgency, overdue } = onDate ?? prescription;
  const certainty = CERTAINTIES.find((one) => conflicts.some((conflict) => conflict.certainty === one)) ?? "confirmed";
  const next = onDate === null ? prescription.visits[0] : onDate.ahead[0];
  const quiet = urgency === "clear" || (remedy === "none" && conflicts.length === 0);
  const spreadM = Math.max(0.2, Math.min(tree.radii.northM + tree.radii.southM, tree.radii.eastM + tree.radii.westM));
  const kinds = CONFLICT_KINDS.filter((kind) => conflicts.some((conflict) => conflict.kind === kind));
  return {
    tree: tree.id,
    urgency,
    overdue,
    certainty,
    remedy,
    quiet,
    image: quiet ? CLEAR_IMAGE : markImageId(remedy, urgency, remedy === "none" ? "confirmed" : certainty),
    farImage: quiet ? CLEAR_IMAGE : markImageId(remedy, urgency, certainty === "possible" ? certainty : "confirmed"),
    turn: markShape(remedy).turns ? (prescription.bearingDeg ?? 0) : 0,
    order: URGENCIES.length - URGENCIES.indexOf(urgency),
    due: next?.due ?? "",
    crew: next?.crew ?? "",
    zone,
    kinds: `,${kinds.join(",")},`,
    shows: zoomAtPx(spreadM, TOKENS.mark.crownShowsAtPx, tree.latDeg),
  };
}
