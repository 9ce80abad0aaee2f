import Flatbush from "flatbush";
import type { Geometry } from "geojson";
import { type FeatureFault, featureFault } from "./feature-fault.ts";

type Line = readonly (readonly number[])[];

/** A ring whose area is under this share of its extent's diagonal squared is a line drawn there and back; a wall of 10 cm by 1 km has more. */
const LEAST_AREA_SHARE = 1e-5;
/** Pairs of segments with overlapping boxes that are compared in one ring; honest outlines have a few a segment. Our policy: a second of work. */
const MOST_PAIRS = 20_000_000;
/** Rings up to this many segments are compared pair by pair; longer ones through an index. */
const FEW_SEGMENTS = 64;

/**
 * What keeps a well-formed geometry from being measured, which sets the feature aside, or makes its inside doubtful: lines without length, outer
 * rings without area, rings that cross themselves. Empty for points and for shapes that are as they should be.
 */
export function checkShape(geometry: Geometry): {
  readonly fault: FeatureFault | null;
  readonly doubts: FeatureFault[];
} {
  switch (geometry.type) {
    case "LineString":
      return { fault: lengthFault([geometry.coordinates]), doubts: [] };
    case "MultiLineString":
      return { fault: lengthFault(geometry.coordinates), doubts: [] };
    case "Polygon":
      return checkPolygons([geometry.coordinates]);
    case "MultiPolygon":
      return checkPolygons(geometry.coordinates);
    default:
      return { fault: null, doubts: [] };
  }
}

/** Lines none of which has two different positions; one part without length beside others is passed over. */
function lengthFault(lines: readonly Line[]): FeatureFault | null {
  const hasLength = lines.some((line) => line.some((at) => at[0] !== line[0]![0] || at[1] !== line[0]![1]));
  if (hasLength) return null;
  const what = "All positions of the line are the same; it has no length.";
  return featureFault("no-length", "geometry.coordinates", lines[0]![0]!.join(" "), what, "Draw the line again.");
}

function checkPolygons(polygons: readonly (readonly Line[])[]): { fault: FeatureFault | null; doubts: FeatureFault[] } {
  if (!polygons.some(([outer]) => hasArea(outer!))) {
    const value = polygons[0]![0]![0]!.join(" ");
    const what = "The polygon has no area: its positions are the same or lie on one line.";
    return {
      fault: featureFault("no-area", "geometry.coordinates", value, what, "Draw the polygon again."),
      doubts: [],
    };
  }
  for (const ring of polygons.flat()) {
    const answer = hasArea(ring) ? crossesItself(ring) : "no";
    if (answer !== "no") return { fault: null, doubts: [answer === "yes" ? crossingDoubt(ring) : unknownDoubt(ring)] };
  }
  return { fault: null, doubts: [] };
}

const ringDoubt = (code: string, ring: Line, what: string): FeatureFault => ({
  ...featureFault(code, "geometry.coordinates", ring[0]!.join(" "), what, "Draw the ring again."),
  severity: "warning",
});
const crossingDoubt = (ring: Line): FeatureFault =>
  ringDoubt("self-crossing-ring", ring, "A ring of the polygon crosses itself; what is inside it is doubtful.");
const unknownDoubt = (ring: Line): FeatureFault =>
  ringDoubt("ring-not-checked", ring, "A ring of the polygon is too tangled to be checked for crossing itself.");

/** Whether the ring encloses anything, by the trapezoid rule from its first position, so that large coordinates lose no digits. */
function hasArea(ring: Line): boolean {
  const [x0, y0] = ring[0] as readonly [number, number];
  let twice = 0;
  let reach = 0;
  for (let at = 1; at < ring.length; at += 1) {
    const [ax, ay] = [ring[at - 1]![0]! - x0, ring[at - 1]![1]! - y0];
    const [bx, by] = [ring[at]![0]! - x0, ring[at]![1]! - y0];
    twice += ax * by - bx * ay;
    reach = Math.max(reach, Math.hypot(bx, by));
  }
  // A bow tie's halves cancel: its ring counts as one that encloses something where it leaves the straight line.
  return Math.abs(twice) > LEAST_AREA_SHARE * reach * reach || isBent(ring, reach);
}

/** Whether a position lies off the line from the first position to the farthest one. */
function isBent(ring: Line, reach: number): boolean {
  if (reach === 0) return false;
  const [x0, y0] = ring[0] as readonly [number, number];
  const far = ring.find((at) => Math.hypot(at[0]! - x0, at[1]! - y0) === reach)!;
  const [dx, dy] = [(far[0]! - x0) / reach, (far[1]! - y0) / reach];
  return ring.some((at) => Math.abs((at[0]! - x0) * dy - (at[1]! - y0) * dx) > LEAST_AREA_SHARE * reach);
}

/**
 * Whether two segments that are not neighbors cross properly; touching and running along each other is not crossing. Unknown where more pairs had to be compared
 * than are.
 */
function crossesItself(ring: Line): "yes" | "no" | "unknown" {
  const count = ring.length - 1;
  if (count < 4) return "no";
  if (count <= FEW_SEGMENTS) {
    for (let one = 0; one < count; one += 1) {
      for (let other = one + 2; other < count; other += 1) if (cross(ring, one, other)) return "yes";
    }
    return "no";
  }
  const index = new Flatbush(count);
  for (let at = 0; at < count; at += 1) index.add(...boxOf(ring, at));
  index.finish();
  let pairs = 0;
  let isCrossed = false;
  const visit = (at: number, other: number): false => {
    pairs += 1;
    isCrossed ||= other > at + 1 && cross(ring, at, other);
    // A search can only be left by throwing.
    if (isCrossed || pairs > MOST_PAIRS) throw LEAVE;
    return false;
  };
  try {
    for (let at = 0; at < count; at += 1) index.search(...boxOf(ring, at), (other) => visit(at, other));
  } catch (error) {
    if (error !== LEAVE) throw error;
  }
  return isCrossed ? "yes" : pairs > MOST_PAIRS ? "unknown" : "no";
}

const LEAVE = new Error("Search left");

function boxOf(ring: Line, at: number): [minX: number, minY: number, maxX: number, maxY: number] {
  const [a, b] = [ring[at]!, ring[at + 1]!];
  return [Math.min(a[0]!, b[0]!), Math.min(a[1]!, b[1]!), Math.max(a[0]!, b[0]!), Math.max(a[1]!, b[1]!)];
}

function cross(ring: Line, one: number, other: number): boolean {
  const [a, b, c, d] = [ring[one]!, ring[one + 1]!, ring[other]!, ring[other + 1]!];
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

/** -1, 0 or 1: on which side of the line from `a` to `b` a position lies. Near-zero results of rounding count as 0. */
function side(a: readonly number[], b: readonly number[], p: readonly number[]): number {
  const left = (b[0]! - a[0]!) * (p[1]! - a[1]!);
  const right = (b[1]! - a[1]!) * (p[0]! - a[0]!);
  const value = left - right;
  return Math.abs(value) <= 1e-12 * (Math.abs(left) + Math.abs(right)) ? 0 : Math.sign(value);
}
