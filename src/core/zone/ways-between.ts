import { planeOf } from "../plane/plane.ts";
import { type Stop, stopPositions } from "./stops.ts";
import type { Streets } from "./streets/streets.ts";
import { type Walking, walkingAmong } from "./walking.ts";

/** How far it is to walk between any two of many stops, each pair measured in the plane of the one asked from. */
export class WaysBetween {
  readonly #stops: readonly Stop[];
  readonly #streets: Streets;
  readonly #byPlane = new Map<number, { readonly walking: Walking; readonly numberOf: ReadonlyMap<Stop, number> }>();

  constructor(stops: readonly Stop[], streets: Streets) {
    this.#stops = stops;
    this.#streets = streets;
  }

  /** Meters of the walk from a stop to another near it. Throws RangeError for a stop two planes or more away, or not among those given. */
  stepM(from: Stop, to: Stop): number {
    const { walking, numberOf } = this.#in(planeOf(from.tree.lonDeg));
    const [a, b] = [numberOf.get(from), numberOf.get(to)];
    if (a === undefined || b === undefined) throw new RangeError("Expected two of the stops, near each other");
    return walking.stepM(a, b);
  }

  #in(plane: number): { readonly walking: Walking; readonly numberOf: ReadonlyMap<Stop, number> } {
    const known = this.#byPlane.get(plane);
    if (known !== undefined) return known;
    const away = ({ tree }: Stop): number => planesApart(planeOf(tree.lonDeg), plane);
    // Positions are in the plane of the first stop.
    const stops = this.#stops.filter((stop) => away(stop) <= 1).sort((a, b) => away(a) - away(b));
    const made = {
      walking: walkingAmong(stops, stopPositions(stops), this.#streets),
      numberOf: new Map(stops.map((stop, at) => [stop, at])),
    };
    this.#byPlane.set(plane, made);
    return made;
  }
}

const PLANES = 1440;

function planesApart(a: number, b: number): number {
  const apart = Math.abs(a - b);
  return Math.min(apart, PLANES - apart);
}
