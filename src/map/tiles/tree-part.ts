import type { Feature, Geometry } from "geojson";
import type { Plan } from "../../core/model/plan.ts";
import type { PrescriptionLine } from "../../core/plan/read-plan.ts";
import { conflictOf } from "../../core/plan/read-records.ts";
import { type ByteFile, textAt } from "../../formats/tiles/byte-file.ts";
import { type PlanLook, planLook } from "../features/plan-look.ts";
import type { ConflictPlaces, TreePlaces } from "./plan-places.ts";

/** What parts of a plan are read from. */
export interface PartSource {
  /** The plan without trees, conflicts, surroundings and sight, but with its zones. */
  readonly frame: Plan;
  readonly prescriptions: ByteFile;
  readonly conflicts: ByteFile;
  readonly trees: TreePlaces;
  readonly ofTree: ConflictPlaces;
  /** Zone of a tree by its id. */
  readonly zoneOf: ReadonlyMap<string, string>;
}

/** Some trees of a plan as a map shows them; rows are counted anew from 0, in the order in which they are asked for. */
export function treePart(from: PartSource, rows: readonly number[]): PlanLook {
  const lines = rows.map((row) => {
    const text = textAt(from.prescriptions, from.trees.offset[row]!, from.trees.length[row]!);
    return JSON.parse(text) as PrescriptionLine;
  });
  const trees = lines.map(({ tree }, row) => ({ ...tree, row }));
  const rowOf = new Map(trees.map((tree) => [tree.id, tree.row]));
  const { ofTree } = from;
  const conflicts = rows.flatMap((row) =>
    Array.from({ length: ofTree.first[row + 1]! - ofTree.first[row]! }, (_, at) => {
      const place = ofTree.first[row]! + at;
      const text = textAt(from.conflicts, ofTree.offset[place]!, ofTree.length[place]!);
      return conflictOf(JSON.parse(text) as Feature<Geometry | null>, rowOf);
    }),
  );
  const treesOf = new Map<string, string[]>();
  for (const { id } of trees) {
    const zoneId = from.zoneOf.get(id);
    if (zoneId !== undefined) treesOf.set(zoneId, [...(treesOf.get(zoneId) ?? []), id]);
  }
  const plan: Plan = {
    ...from.frame,
    trees,
    conflicts,
    prescriptions: lines.map(({ prescription }, treeRow) => ({ ...prescription, treeRow })),
    settings: lines.map(({ setting }, treeRow) => ({ ...setting, treeRow })),
    zones: from.frame.zones
      .filter(({ zoneId }) => treesOf.has(zoneId))
      .map((zone) => ({ ...zone, treeIds: treesOf.get(zone.zoneId)! })),
  };
  return planLook({ plan, trees: NONE, conflicts: NONE, surroundings: NONE, sight: NONE, zones: NONE })!;
}

const NONE = { type: "FeatureCollection", features: [] } as const as { type: "FeatureCollection"; features: never[] };
