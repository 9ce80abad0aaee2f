import { planeOf } from "../../plane/plane.ts";
import type { StreetLines } from "./street-lines.ts";
import { type StreetNet, streetNet } from "./street-net.ts";
import { streetReach } from "./street-reach.ts";

/** How far in meters ways along streets are searched for. */
const FARTHEST_M = 800;
/** How far around the places streets are looked at: more than the farthest way up to 60 degrees of latitude. */
const MARGIN_DEG = 0.015;

/** The streets around some places, made when they are asked for and kept: one net for each plane, one search for each vertex. */
export class Streets {
  readonly #lines: StreetLines;
  readonly #places: readonly { readonly lonDeg: number; readonly latDeg: number }[];
  readonly #nets = new Map<number, StreetNet | null>();
  readonly #ways = new Map<StreetNet, Map<number, Map<number, number>>>();

  constructor(lines: StreetLines, places: readonly { readonly lonDeg: number; readonly latDeg: number }[]) {
    this.#lines = lines;
    this.#places = places;
  }

  /** The net in the plane of a longitude; null where no street is known. */
  netAt(lonDeg: number): StreetNet | null {
    const plane = planeOf(lonDeg);
    const known = this.#nets.get(plane);
    if (known !== undefined) return known;
    const bounds = { west: Infinity, south: Infinity, east: -Infinity, north: -Infinity };
    for (const place of this.#places) {
      // A stop of the next plane can belong to work that begins in this one.
      if (Math.abs(planeOf(place.lonDeg) - plane) > 1) continue;
      bounds.west = Math.min(bounds.west, place.lonDeg - MARGIN_DEG);
      bounds.east = Math.max(bounds.east, place.lonDeg + MARGIN_DEG);
      bounds.south = Math.min(bounds.south, place.latDeg - MARGIN_DEG);
      bounds.north = Math.max(bounds.north, place.latDeg + MARGIN_DEG);
    }
    const net = streetNet(this.#lines, plane, bounds);
    this.#nets.set(plane, net);
    return net;
  }

  /** Lengths of the ways from a vertex to those within 800 m along the streets. */
  reachFrom(net: StreetNet, vertex: number): ReadonlyMap<number, number> {
    let ways = this.#ways.get(net);
    if (ways === undefined) {
      ways = new Map();
      this.#ways.set(net, ways);
    }
    let reach = ways.get(vertex);
    if (reach === undefined) {
      reach = streetReach(net, vertex, FARTHEST_M);
      ways.set(vertex, reach);
    }
    return reach;
  }
}
