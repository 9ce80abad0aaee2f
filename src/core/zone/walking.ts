import type { Stop } from "./stops.ts";
import type { StreetNet } from "./streets/street-net.ts";
import { type StreetPlace, streetPlace } from "./streets/street-place.ts";
import type { Streets } from "./streets/streets.ts";
import type { Distances } from "./tour.ts";

/** Trees nearer than this to a street's center line are walked to along it. */
const BESIDE_STREET_M = 30;
/** A crew sees the next tree this near and walks straight to it. Our policy. */
const STRAIGHT_M = 40;
/** No way is longer than this many times the straight one: beyond it people cut through, or the data's streets do not join. Our policy. */
const MOST_DETOUR = 2;

/** How a crew gets from one of some stops to another. */
export interface Walking {
  /** Meters straight from one stop to another: no walk is shorter. */
  straightM(a: number, b: number): number;
  /** Meters walked from one stop to another. */
  stepM(a: number, b: number): number;
  /** The same between all pairs of some of the stops. */
  distances(numbers: readonly number[]): Distances;
  /** Street and side that each stop stands on; null off the streets. */
  readonly sideOf: readonly (string | null)[];
}

/**
 * Walking among stops whose positions in the plane of the first are `xy`: along the streets between trees beside them, straight between trees
 * within 40 m of each other or off the streets, and never more than twice the straight way. Private lots between streets are kept out of so;
 * rivers and railroads are known only as places where no street leads.
 */
export function walkingAmong(stops: readonly Stop[], xy: Float64Array, streets: Streets): Walking {
  const net = stops.length === 0 ? null : streets.netAt(stops[0]!.tree.lonDeg);
  const places = stops.map((_, at) =>
    net === null ? null : streetPlace(net, xy[2 * at]!, xy[2 * at + 1]!, BESIDE_STREET_M),
  );
  const straightM = (a: number, b: number): number => {
    const eastM = xy[2 * a]! - xy[2 * b]!;
    const northM = xy[2 * a + 1]! - xy[2 * b + 1]!;
    return Math.sqrt(eastM * eastM + northM * northM);
  };
  const stepM = (a: number, b: number): number => {
    const leastM = straightM(a, b);
    if (net === null || leastM <= STRAIGHT_M) return leastM;
    const from = places[a]!;
    const to = places[b]!;
    if (from === null || to === null || from.edge === to.edge) return leastM;
    return Math.max(leastM, Math.min(MOST_DETOUR * leastM, alongStreetsM(net, from, to, streets)));
  };
  return {
    straightM,
    stepM,
    distances: (numbers) => {
      const count = numbers.length;
      const between = new Float64Array(count * count);
      for (let a = 0; a < count; a += 1) {
        for (let b = a + 1; b < count; b += 1) {
          between[a * count + b] = stepM(numbers[a]!, numbers[b]!);
          between[b * count + a] = between[a * count + b]!;
        }
      }
      return { count, between };
    },
    sideOf: places.map((place) => place?.side ?? null),
  };
}

/** From either end of one tree's edge to either end of the other's; Infinity where no street leads. */
function alongStreetsM(net: StreetNet, from: StreetPlace, to: StreetPlace, streets: Streets): number {
  const first = streets.reachFrom(net, net.from[from.edge]!);
  const last = streets.reachFrom(net, net.to[from.edge]!);
  const toLastM = net.lengthM[from.edge]! - from.alongM;
  const end = net.from[to.edge]!;
  const otherEnd = net.to[to.edge]!;
  const toOtherEndM = net.lengthM[to.edge]! - to.alongM;
  return Math.min(
    from.alongM + (first.get(end) ?? Infinity) + to.alongM,
    from.alongM + (first.get(otherEnd) ?? Infinity) + toOtherEndM,
    toLastM + (last.get(end) ?? Infinity) + to.alongM,
    toLastM + (last.get(otherEnd) ?? Infinity) + toOtherEndM,
  );
}
