import type { Building } from "./buildings.ts";
import { GROUND_WALKS, RIVER_PATH } from "./grounds.ts";
import type { Care, Grown } from "./grow.ts";
import { distance, distanceToLine, isInside, type Line, type Point } from "./line.ts";
import type { Control } from "./signs.ts";
import { STREETS, type Street } from "./streets.ts";
import type { Walk } from "./walks.ts";

/** One tree of the town, where it stands and how it came to be. */
export interface Site {
  readonly point: Point;
  readonly tree: Grown;
  readonly care: Care;
  readonly owner: "city" | "private";
  readonly street: string | null;
  readonly houseNumber: number | null;
  readonly side: string | null;
  readonly address?: string;
}

/** Says where a tree can stand and remembers where trees do. */
export interface SiteGuard {
  /** Whether a trunk fits: off roadways, walks, buildings, poles and signs, and clear of other trunks by `apartM` (3.4 m). */
  isFree(point: Point, own: Street | null, mayStandNearCorner: boolean, apartM?: number): boolean;
  isUnderWires(point: Point): boolean;
  take(site: Site): Site;
}

interface Surroundings {
  readonly walks: readonly Walk[];
  readonly built: readonly Building[];
  readonly poles: readonly Point[];
  readonly primaries: readonly (readonly [Point, Point])[];
  readonly signPoints: readonly Point[];
  readonly controlled: readonly Control[];
}

/** Trunks keep this far from the middle of crossings beyond the widest street's half width, save where corners are open to them. */
const CORNER_M = 9;

export function siteGuard(around: Surroundings): SiteGuard {
  const taken: Point[] = [];
  const walkLines: [Line, number][] = [
    ...around.walks
      .filter(({ street }) => street.vergeM > 0)
      .map(({ line, street }): [Line, number] => [line, street.walkM / 2 + 0.25]),
    ...GROUND_WALKS.map((line): [Line, number] => [line, 2]),
    [RIVER_PATH, 2.3],
  ];
  const isOnStreet = (point: Point, own: Street | null): boolean =>
    STREETS.some((street) => distanceToLine(point, street.line) < street.widthM / 2 + (street === own ? 0.6 : 0.8));
  const isNearBuilding = (point: Point): boolean =>
    around.built.some(
      ({ ring, center }) =>
        distance(center, point) < 40 && (isInside(point, ring) || distanceToLine(point, [...ring, ring[0]!]) < 1.3),
    );
  return {
    isFree: (point, own, mayStandNearCorner, apartM = 3.4) =>
      !taken.some((other) => distance(other, point) < apartM) &&
      !around.poles.some((pole) => distance(pole, point) < 2.5) &&
      !around.signPoints.some((sign) => distance(sign, point) < 1.5) &&
      (mayStandNearCorner ||
        !around.controlled.some(({ node, majorHalfM }) => distance(node.at, point) < majorHalfM + CORNER_M + 4)) &&
      !isOnStreet(point, own) &&
      !walkLines.some(([line, offM]) => distanceToLine(point, line) < offM) &&
      !isNearBuilding(point),
    isUnderWires: (point) => around.primaries.some((span) => distanceToLine(point, span) < 3),
    take: (site) => {
      taken.push(site.point);
      return site;
    },
  };
}
