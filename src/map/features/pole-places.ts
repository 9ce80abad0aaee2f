import type { Position } from "geojson";
import type { SurroundingFeature } from "../../core/model/surroundings.ts";

/** A place where wires hang on a pole, and the bearing in degrees, 0 to 180, of the longest of them. */
export interface PolePlace {
  readonly at: Position;
  readonly turnDeg: number;
}

/** Farthest apart that ends of wires hang on one pole, in meters: a crossarm and the survey's error. */
const TOGETHER_M = 3;
const METERS_PER_DEG = 111_320;
const CELL_DEG = TOGETHER_M / METERS_PER_DEG;

/**
 * Where poles are to be drawn: the poles that are given, and where at least two wires end within 3 m of each other, which a wire's end at
 * a house does not. For the drawing only: no clearance is measured from these places.
 */
export function polePlaces(surroundings: readonly SurroundingFeature[]): PolePlace[] {
  const places = new Places();
  for (const { layer, geometry } of surroundings) {
    if (layer === "conductors" && geometry.type === "Point") places.add(geometry.coordinates, null);
  }
  for (const { layer, geometry } of surroundings) {
    if (layer !== "conductors" || geometry.type !== "LineString") continue;
    const [first, second] = geometry.coordinates;
    const [before, last] = geometry.coordinates.slice(-2);
    if (first === undefined || second === undefined || before === undefined || last === undefined) continue;
    places.add(first, second);
    places.add(last, before);
  }
  return places.found.filter(({ isGiven, ends }) => isGiven || ends > 1);
}

interface FoundPlace extends PolePlace {
  turnDeg: number;
  readonly isGiven: boolean;
  ends: number;
  longestM: number;
}

/** Places found so far, by cells of 3 m; the first end of a wire decides where its pole is drawn. */
class Places {
  readonly found: FoundPlace[] = [];
  readonly #cells = new Map<string, FoundPlace[]>();

  /** Takes a pole that is given, with null, or a wire's end with the wire's next corner. */
  add(at: Position, next: Position | null): void {
    const place = this.#near(at) ?? this.#begin(at, next === null);
    if (next === null) return;
    const [eastM, northM] = offsetM(at, next);
    const lengthM = Math.hypot(eastM, northM);
    place.ends += 1;
    if (lengthM <= place.longestM) return;
    place.longestM = lengthM;
    place.turnDeg = ((Math.atan2(eastM, northM) * 180) / Math.PI + 360) % 180;
  }

  #begin(at: Position, isGiven: boolean): FoundPlace {
    const place = { at, turnDeg: 0, isGiven, ends: 0, longestM: 0 };
    this.found.push(place);
    const key = cellOf(at, 0, 0);
    const cell = this.#cells.get(key);
    if (cell === undefined) this.#cells.set(key, [place]);
    else cell.push(place);
    return place;
  }

  #near(at: Position): FoundPlace | null {
    // A degree of longitude shrinks toward the poles, so cells to the sides must reach further: 6 serve up to 80 degrees.
    for (let east = -6; east <= 6; east += 1) {
      for (let north = -1; north <= 1; north += 1) {
        for (const place of this.#cells.get(cellOf(at, east, north)) ?? []) {
          if (Math.hypot(...offsetM(at, place.at)) <= TOGETHER_M) return place;
        }
      }
    }
    return null;
  }
}

const cellOf = ([lonDeg = 0, latDeg = 0]: Position, east: number, north: number): string =>
  `${Math.floor(lonDeg / CELL_DEG) + east} ${Math.floor(latDeg / CELL_DEG) + north}`;

/** Offset in meters east and north on a sphere; over a few meters exact to the millimeter. */
function offsetM(from: Position, to: Position): [number, number] {
  const shrink = Math.cos((from[1]! * Math.PI) / 180);
  return [(to[0]! - from[0]!) * shrink * METERS_PER_DEG, (to[1]! - from[1]!) * METERS_PER_DEG];
}
