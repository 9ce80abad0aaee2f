import type { Polygon } from "geojson";
import type { IsoDate } from "../units/calendar.ts";
import type { LoadCaseId } from "./load-cases.ts";
import type { Basis, Certainty, ClearanceRemedy, ConflictKind, Hazard, Layer } from "./terms.ts";

/** Rays from the crown's axis in a removal region: one every 3 degrees, ray i at bearing (i + 0.5) * 3. */
export const RAY_COUNT = 120;
export const RAY_STEP_DEG = 360 / RAY_COUNT;

/**
 * The part of space around a crown's axis that pruning must free, by rays. On ray i foliage between `fromM[i]` and `toM[i]` (horizontal
 * distances from that axis) and between `lowM` and `highM` (heights above ground) comes off. A ray that misses has
 * `fromM[i] = Infinity`. Built for the minimum and for the clear-to separately.
 */
export interface RemovalRegion {
  readonly fromM: Float64Array;
  readonly toM: Float64Array;
  readonly lowM: number;
  readonly highM: number;
}

/** A point that a clearance is measured at. */
export interface GapPoint {
  readonly lonDeg: number;
  readonly latDeg: number;
  /** Meters above the tree's own ground. */
  readonly heightM: number;
}

/** One tree and one thing that its crown is, or within two cycles will be, too close to; as it is kept in a plan. */
export interface ConflictRecord {
  /** Stable across runs: tree id, kind and the other feature's id. */
  readonly conflictId: string;
  readonly treeId: string;
  /** Row of the tree in the tree table. */
  readonly treeRow: number;
  readonly kind: ConflictKind;
  readonly withLayer: Layer | "sight";
  readonly withId: string;
  readonly withName: string | null;
  readonly ruleId: string;
  /** Headroom for ways and roofs, horizontal gap for walls, 3-D gap for conductors; negative when the outline passes it. */
  readonly measuredM: number;
  readonly minimumM: number;
  readonly clearToM: number;
  /** `max(0, minimumM - measuredM)`. */
  readonly encroachmentM: number;
  /** Sight lines: by how much the hidden share of the area would fall if only this tree were opened, 0 to 1; absent or null where not measured. */
  readonly hiddenShare?: number | null;
  /** Horizontal distance from the crown's axis, which stands in the trunk unless the tree's crown is beside it, to the nearest point of the thing. */
  readonly distanceM: number;
  /** The same from the trunk's foot; absent where they are the same. */
  readonly trunkDistanceM?: number;
  /** Bearing from the crown's axis to that point, degrees clockwise from north. */
  readonly bearingDeg: number;
  readonly admits: readonly ClearanceRemedy[];
  readonly certainty: Certainty;
  /** Worst basis among the sizes that decide it. */
  readonly basis: Basis;
  /** Why the certainty is no better, one sentence; null when confirmed. */
  readonly doubt: string | null;
  /** When the minimum is reached by growth; the as-of date when it already is. */
  readonly reachedOn: IsoDate;
  readonly firstSeen: IsoDate;
  readonly hazard: Hazard | null;
  /** For roofs: elevation of the roof above the tree's ground. For walls and ways 0. Clearance heights count from here. */
  readonly datumM: number;
  /** Conductors: the span that comes nearest, and the load case in which it does. Null for other kinds. */
  readonly spanId: string | null;
  readonly loadCase: LoadCaseId | null;
  /**
   * The points that `measuredM` lies between: on the thing (the way's surface, the wall, the roof, the wire) and on the crown. Of a crown that
   * does not reach over a way or roof yet, the nearest points of both. Absent or null where a kind does not give them.
   */
  readonly nearest?: { readonly thing: GapPoint; readonly crown: GapPoint } | null;
  /** What the target is raised by above the minimum because branches hang lower in leaf, rain or ice, meters; absent is 0. */
  readonly droopAllowanceM?: number;
  /** The encroaching part of the crown in plan, longitude and latitude; null for a conflict still to come. */
  readonly encroachment: Polygon | null;
}

/** A conflict as measured in this run, with the space to be freed; the region is not written to files. */
export interface Conflict extends ConflictRecord {
  /** What must be freed to reach the clear-to height or distance. */
  readonly region: RemovalRegion;
  /** Walls: what the building fills, and what lies behind it, up to the eaves. No branch is there, though the crown's outline may be. */
  readonly solid?: RemovalRegion;
}

/** What one span is to one tree. */
export interface SpanReach {
  readonly spanId: string;
  /** Id of the line it belongs to. */
  readonly withId: string;
  /** Least gap in meters from the crown to the wire over the load cases of its rule, negative inside the crown; null out of its reach. */
  readonly gapM: number | null;
  readonly loadCase: LoadCaseId | null;
  /** Horizontal distance in meters from the trunk to the line between its supports. */
  readonly trunkDistanceM: number;
  /** Whether the tree, falling whole about its foot, is long enough to touch the wire at rest. */
  readonly canStrike: boolean;
}

/** What stands around one tree that decides who may work in it and what could be checked. */
export interface TreeSetting {
  readonly treeRow: number;
  /** False when no conductor layer was given: nobody knows whether a line is near. */
  readonly conductorsKnown: boolean;
  /** The conductor nearest to the crown, within 30 m of the trunk; null when there is none. */
  readonly conductor: {
    readonly withId: string;
    /** Its nearest span; absent in plans of an earlier version. */
    readonly spanId?: string;
    /** Shortest distance in meters from the crown's surface to the conductor at rest, cold or hot, 0 when inside. */
    readonly crownGapM: number;
    /** Horizontal distance in meters from the trunk. */
    readonly trunkDistanceM: number;
    readonly bearingDeg: number;
    readonly heightM: number;
    readonly voltageV: number | null;
    /** Worker approach distance in meters for people who are not line-clearance qualified. */
    readonly approachM: number;
    /** Distance in meters that cranes and loaders keep; null where an engineer decides, absent in plans of an earlier version. */
    readonly equipmentM?: number | null;
  } | null;
  /** Spans that the crown may come too near to within two cycles, or that the tree could strike; absent where there are none. */
  readonly spans?: readonly SpanReach[];
  /** Horizontal distance in meters from the trunk to the nearest traveled way and its speed; null when none is within 30 m. */
  readonly road: {
    readonly withId: string;
    readonly name: string | null;
    readonly distanceM: number;
    readonly speedKmh: number | null;
  } | null;
  /** Horizontal distance in meters to the nearest walkway; null when none is within 30 m. */
  readonly walkDistanceM: number | null;
  readonly notChecked: readonly ConflictKind[];
}
