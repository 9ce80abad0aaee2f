import type { Crown } from "../../../core/crown/crown.ts";
import type { ConflictRecord } from "../../../core/model/conflict.ts";
import type { Plan } from "../../../core/model/plan.ts";

/** Heights of what stands around the trees, by id. */
export interface Surroundings {
  readonly buildingHeightM: ReadonlyMap<string, number>;
  /** Least and greatest height that must be free in each area of sight. */
  readonly sightM: ReadonlyMap<string, readonly [number, number]>;
}

export const surroundingsOf = ({ surroundings, sight }: Plan): Surroundings => ({
  buildingHeightM: new Map(
    surroundings.flatMap(({ layer, id, heightM }) =>
      layer === "buildings" && heightM !== null ? [[id, heightM] as const] : [],
    ),
  ),
  sightM: new Map(sight.map(({ id, windowLowM, windowHighM }) => [id, [windowLowM, windowHighM] as const])),
});

/**
 * Heights in meters above the tree's ground between which a conflict asks for free space: over ways and roofs up to the minimum, at walls up to
 * their height, at wires the minimum about the nearest point, in sight the window. Null where the plan does not say.
 */
export function encroachmentHeights(
  { kind, datumM, minimumM, withId, nearest }: ConflictRecord,
  crown: Crown,
  { buildingHeightM, sightM }: Surroundings,
): readonly [number, number] | null {
  switch (kind) {
    case "building-side":
      return [0, buildingHeightM.get(withId) ?? crown.heightM];
    case "building-roof":
      return [datumM, datumM + minimumM];
    case "conductor":
      return nearest == null ? null : [nearest.thing.heightM - minimumM, nearest.thing.heightM + minimumM];
    case "sight-triangle":
    case "curve":
    case "sign":
    case "signal":
      return sightM.get(withId) ?? null;
    default:
      return [0, datumM + minimumM];
  }
}
