import Flatbush from "flatbush";
import type { Stop } from "./stops.ts";
import type { WaysBetween } from "./ways-between.ts";

/** Which stops are within a walk of which, found when asked for and kept. */
export class NearStops {
  readonly #stops: readonly Stop[];
  readonly #ways: WaysBetween;
  readonly #reachM: number;
  readonly #index: Flatbush | null;
  readonly #near = new Map<Stop, readonly [Stop, number][]>();

  constructor(stops: readonly Stop[], ways: WaysBetween, reachM: number) {
    this.#stops = stops;
    this.#ways = ways;
    this.#reachM = reachM;
    this.#index = stops.length === 0 ? null : new Flatbush(stops.length);
    for (const { tree } of stops) this.#index?.add(tree.lonDeg, tree.latDeg, tree.lonDeg, tree.latDeg);
    this.#index?.finish();
  }

  /** All other stops within reach of one with the ways to them in meters, in the order they were given. */
  around(stop: Stop): readonly [Stop, number][] {
    const known = this.#near.get(stop) ?? this.#search(stop);
    this.#near.set(stop, known);
    return known;
  }

  #search(stop: Stop): readonly [Stop, number][] {
    const { lonDeg, latDeg } = stop.tree;
    // No degree of latitude is shorter than 110 km, and no way shorter than the straight one.
    const latReach = this.#reachM / 110_000;
    const lonReach = latReach / Math.max(0.05, Math.cos((latDeg * Math.PI) / 180));
    const found = this.#index!.search(lonDeg - lonReach, latDeg - latReach, lonDeg + lonReach, latDeg + latReach);
    return found
      .sort((a, b) => a - b)
      .flatMap((at): [Stop, number][] => {
        const other = this.#stops[at]!;
        if (other === stop) return [];
        const awayM = this.#ways.stepM(stop, other);
        return awayM > this.#reachM ? [] : [[other, awayM]];
      });
  }
}
