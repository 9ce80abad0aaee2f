import { planeOf } from "../plane/plane.ts";
import { type Stop, stopPositions } from "./stops.ts";
import type { Streets } from "./streets/streets.ts";
import { type Walking, walkingAmong } from "./walking.ts";

/** How far it is to walk between any two of many stops, each pair measured in the plane of the one asked from. */
export class WaysBetween {
  readonly #stops: readonly Stop[];
  readonly #streets: Streets;
  readonly #numberOf: ReadonlyMap<Stop, number>;
  /** Plane of each stop. */
  readonly #planes: Int32Array;
  readonly #byPlane = new Map<number, InPlane>();
  /** The plane asked for last: most work lies in one. */
  #last: InPlane | null = null;

  constructor(stops: readonly Stop[], streets: Streets) {
    this.#stops = stops;
    this.#streets = streets;
    this.#numberOf = new Map(stops.map((stop, at) => [stop, at]));
    this.#planes = Int32Array.from(stops, ({ tree }) => planeOf(tree.lonDeg));
  }

  /** Number of a stop among those given. Throws RangeError for another. */
  numberOf(stop: Stop): number {
    const number = this.#numberOf.get(stop);
    if (number === undefined) throw new RangeError(`Expected one of the stops, got tree ${stop.tree.id}`);
    return number;
  }

  /** Meters of the walk from a stop to another near it. Throws RangeError for a stop two planes or more away, or not among those given. */
  stepM(from: Stop, to: Stop): number {
    return this.stepOfM(this.numberOf(from), this.numberOf(to));
  }

  /** The same between stops by their numbers. */
  stepOfM(from: number, to: number): number {
    const { walking, placeOf } = this.#in(this.#planes[from]!);
    return walking.stepM(placeOf[from]!, placeAmong(placeOf, to));
  }

  /** Meters straight from a stop to another near it, by their numbers: no walk is shorter. Throws as {@link stepM}. */
  straightOfM(from: number, to: number): number {
    const { walking, placeOf } = this.#in(this.#planes[from]!);
    return walking.straightM(placeOf[from]!, placeAmong(placeOf, to));
  }

  #in(plane: number): InPlane {
    if (this.#last?.plane === plane) return this.#last;
    const found = this.#byPlane.get(plane) ?? this.#measuredIn(plane);
    this.#byPlane.set(plane, found);
    this.#last = found;
    return found;
  }

  #measuredIn(plane: number): InPlane {
    const away = (number: number): number => planesApart(this.#planes[number]!, plane);
    // Positions are in the plane of the first stop.
    const numbers = [...this.#planes.keys()].filter((at) => away(at) <= 1).sort((a, b) => away(a) - away(b));
    const stops = numbers.map((at) => this.#stops[at]!);
    const placeOf = new Int32Array(this.#stops.length).fill(-1);
    numbers.forEach((at, place) => {
      placeOf[at] = place;
    });
    return { plane, walking: walkingAmong(stops, stopPositions(stops), this.#streets), placeOf };
  }
}

/** Walking among the stops in a plane and those beside it. */
interface InPlane {
  readonly plane: number;
  readonly walking: Walking;
  /** Place of each stop among them; -1 of one that is farther away. */
  readonly placeOf: Int32Array;
}

function placeAmong(placeOf: Int32Array, number: number): number {
  const place = placeOf[number]!;
  if (place < 0) throw new RangeError("Expected two of the stops, near each other");
  return place;
}

const PLANES = 1440;

function planesApart(a: number, b: number): number {
  const apart = Math.abs(a - b);
  return Math.min(apart, PLANES - apart);
}
