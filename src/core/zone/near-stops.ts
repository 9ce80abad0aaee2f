import Flatbush from "flatbush";
import type { Stop } from "./stops.ts";
import type { WaysBetween } from "./ways-between.ts";

/** Stops near one, with the ways to them in meters. */
type Near = readonly (readonly [Stop, number])[];

/** Which stops are within a walk of which, found when asked for and kept. */
export class NearStops {
  readonly #stops: readonly Stop[];
  readonly #ways: WaysBetween;
  readonly #index: Flatbush | null;
  readonly #near = new Map<Stop, { readonly reachM: number; readonly stops: Near }>();

  constructor(stops: readonly Stop[], ways: WaysBetween) {
    this.#stops = stops;
    this.#ways = ways;
    this.#index = stops.length === 0 ? null : new Flatbush(stops.length);
    for (const { tree } of stops) this.#index?.add(tree.lonDeg, tree.latDeg, tree.lonDeg, tree.latDeg);
    this.#index?.finish();
  }

  /** All other stops within a walk of `reachM` meters of one with the ways to them in meters, in the order they were given. */
  around(stop: Stop, reachM: number): Near {
    const known = this.#near.get(stop);
    if (known !== undefined && known.reachM >= reachM) {
      return known.reachM === reachM ? known.stops : known.stops.filter(([, awayM]) => awayM <= reachM);
    }
    const stops = this.#search(stop, reachM);
    this.#near.set(stop, { reachM, stops });
    return stops;
  }

  #search(stop: Stop, reachM: number): Near {
    const { lonDeg, latDeg } = stop.tree;
    // No degree of latitude is shorter than 110 km, and no way shorter than the straight one.
    const latReach = reachM / 110_000;
    const lonReach = latReach / Math.max(0.05, Math.cos((latDeg * Math.PI) / 180));
    const found = this.#index!.search(lonDeg - lonReach, latDeg - latReach, lonDeg + lonReach, latDeg + latReach);
    const own = this.#ways.numberOf(stop);
    const near: (readonly [Stop, number])[] = [];
    for (const at of found.sort((a, b) => a - b)) {
      const other = this.#stops[at]!;
      if (other === stop) continue;
      const number = this.#ways.numberOf(other);
      if (this.#ways.straightOfM(own, number) > reachM) continue;
      const awayM = this.#ways.stepOfM(own, number);
      if (awayM <= reachM) near.push([other, awayM]);
    }
    return near;
  }
}
