import type { Geometry, Position } from "geojson";
import { findConflicts } from "../../../src/core/conflict/find-conflicts.ts";
import type { Conflict } from "../../../src/core/model/conflict.ts";
import type { SourceFeature } from "../../../src/core/model/feature.ts";
import type { PlanOptions } from "../../../src/core/model/plan.ts";
import type { Habit, Layer } from "../../../src/core/model/terms.ts";
import { treeTable } from "../../../src/core/model/tree-table.ts";
import type { Radii, Size, Tree } from "../../../src/core/model/trees.ts";
import { planeOf, toLonLat, toPlane } from "../../../src/core/plane/plane.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import type { Standard } from "../../../src/core/standard/standard.ts";
import { buildSurroundings } from "../../../src/core/surroundings/build-surroundings.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";

/** Scenes are drawn in meters east and north of a point on a central meridian. */
export const ORIGIN = { lonDeg: -90, latDeg: 41 };
export const STANDARD: Standard = usCommon();
export const OPTIONS: PlanOptions = {
  asOf: isoDate("2026-04-01"),
  units: "us",
  drive: "right",
  place: { hardinessZone: null, region: null },
};

export type Place = { readonly lonDeg: number; readonly latDeg: number };

/** Longitude and latitude of a point x meters east and y meters north of the origin. */
export function at(xM: number, yM: number, origin: Place = ORIGIN): Position {
  const plane = planeOf(origin.lonDeg);
  const [originX, originY] = toPlane(plane, origin.lonDeg, origin.latDeg);
  const [lonDeg, latDeg] = toLonLat(plane, originX + xM, originY + yM);
  return [lonDeg, latDeg];
}

export type Points = readonly (readonly [xM: number, yM: number])[];

export const ring = (points: Points, origin?: Place): Position[] =>
  [...points, points[0]!].map(([x, y]) => at(x, y, origin));

export const polygon = (points: Points, origin?: Place): Geometry => ({
  type: "Polygon",
  coordinates: [ring(points, origin)],
});

export const line = (points: Points, origin?: Place): Geometry => ({
  type: "LineString",
  coordinates: points.map(([x, y]) => at(x, y, origin)),
});

export const point = (x: number, y: number, origin?: Place): Geometry => ({
  type: "Point",
  coordinates: at(x, y, origin),
});

/** Features of one layer as the reader hands them over. */
export function features(
  layer: Layer,
  ...given: readonly { readonly geometry: Geometry; readonly properties?: Record<string, unknown> }[]
): SourceFeature[] {
  return given.map(({ geometry, properties }, index) => ({
    layer,
    file: `${layer}.geojson`,
    index,
    ordinal: index,
    id: null,
    properties: properties ?? {},
    geometry,
  }));
}

export interface TreeGiven {
  readonly id?: string;
  readonly x?: number;
  readonly y?: number;
  readonly heightM: number;
  readonly baseM: number;
  readonly radiusM: number;
  readonly radii?: Radii;
  readonly habit?: Habit;
  readonly dbhM?: number | null;
  /** Half the 90 % interval of every size, as a share of it. */
  readonly error?: number;
  readonly basis?: Size["basis"];
  readonly radiusGrowthM?: number;
  readonly heightGrowthM?: number;
  readonly headroomM?: number;
  readonly groundZM?: number;
  readonly origin?: Place;
  /** Anything else of the tree, as it is. */
  readonly more?: Partial<Tree>;
}

/** A tree with every size of one basis, no growth unless given. */
export function tree(given: TreeGiven, row = 0): Tree {
  const [lonDeg, latDeg] = at(given.x ?? 0, given.y ?? 0, given.origin);
  const error = given.error ?? 0.05;
  const size = (valueM: number): Size => ({
    valueM,
    lowM: valueM * (1 - error),
    highM: valueM * (1 + error),
    basis: given.basis ?? "measured",
    source: "scene",
  });
  const r = given.radiusM;
  return {
    row,
    ordinal: row,
    id: given.id ?? `t${row}`,
    lonDeg: lonDeg!,
    latDeg: latDeg!,
    species: null,
    commonName: null,
    form: "tree",
    habit: given.habit ?? "ellipsoid",
    dbhM: given.dbhM ?? null,
    dbhBasis: null,
    height: size(given.heightM),
    crownBase: size(given.baseM),
    radius: size(r),
    radii: given.radii ?? { northM: r, eastM: r, southM: r, westM: r },
    planted: null,
    caliperAtPlantingM: null,
    lastPruned: null,
    lastDoseShare: null,
    condition: "unknown",
    defects: [],
    stems: 1,
    groundZM: given.groundZM ?? null,
    headroomOverRoadM: given.headroomM ?? null,
    street: null,
    address: null,
    side: null,
    owner: null,
    isProtected: false,
    traits: {
      matchedBy: "none",
      matchedName: "",
      habit: given.habit ?? "ellipsoid",
      isEvergreen: false,
      isConifer: false,
      heightGrowthMPerYear: given.heightGrowthM ?? 0,
      radiusGrowthMPerYear: given.radiusGrowthM ?? 0,
      growthSource: "scene",
      matureHeightM: 20,
      bleeds: false,
      genus: "",
      springBlooming: false,
    },
    ...given.more,
  };
}

export type Layers = { readonly [L in Layer]?: readonly SourceFeature[] };

/** The whole search on a scene. */
export function search(
  trees: readonly TreeGiven[],
  layers: Layers,
  standard: Standard = STANDARD,
  options: PlanOptions = OPTIONS,
): ReturnType<typeof findConflicts> & { around: ReturnType<typeof buildSurroundings> } {
  const around = buildSurroundings(layers, {}, standard, options);
  const table = treeTable(trees.map(tree));
  return { ...findConflicts(table, around.surroundings, standard, options, new Map()), around };
}

/** The only conflict of a kind; fails when there is none or more than one. */
export function only(conflicts: readonly Conflict[], kind: Conflict["kind"]): Conflict {
  const found = conflicts.filter((conflict) => conflict.kind === kind);
  if (found.length !== 1) throw new Error(`Expected one ${kind} conflict, got ${found.length}`);
  return found[0]!;
}
