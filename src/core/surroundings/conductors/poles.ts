import Flatbush from "flatbush";
import type { Position } from "geojson";
import type { SourceFeature } from "../../model/feature.ts";
import type { Basis } from "../../model/terms.ts";
import { planeOf, toPlane } from "../../plane/plane.ts";
import type { Gathering } from "../gathering.ts";
import { readValue } from "../read-value.ts";
import { readAmount } from "./read-amount.ts";

/** A pole or tower given as a point, as far as wires need it; null is unknown. */
export interface PoleGiven {
  readonly lonDeg: number;
  readonly latDeg: number;
  /** Height of the wire's attachment above the pole's foot. */
  readonly attachmentM: number | null;
  /** `estimated` where only the pole's own height is recorded, and the wire is taken to hang at its top. */
  readonly basis: Basis;
  readonly groundM: number | null;
}

/** Farthest in meters from a line's vertex at which a pole carries it: a crossarm and the survey's error. Our policy. */
const CARRIES_M = 3;
/** Meters in a degree of latitude, to a percent: for boxes that are searched, no length. */
const DEGREE_M = 110_000;

export function readPole(gathering: Gathering, feature: SourceFeature): PoleGiven | null {
  if (feature.geometry.type !== "Point") return null;
  const [lonDeg, latDeg] = feature.geometry.coordinates as [number, number];
  const isRecorded = readValue(gathering.columns, "conductors", "attachment_height_1", feature) !== undefined;
  return {
    lonDeg,
    latDeg,
    attachmentM: readAmount(gathering, feature, "attachment_height_1", "height"),
    basis: isRecorded ? "measured" : "estimated",
    groundM: readAmount(gathering, feature, "ground_z_1", "ele"),
  };
}

/** Finds the pole that carries a line at a vertex. */
export class Poles {
  readonly #poles: readonly PoleGiven[];
  readonly #index: Flatbush | null;

  constructor(poles: readonly PoleGiven[]) {
    this.#poles = poles;
    this.#index = poles.length === 0 ? null : new Flatbush(poles.length);
    for (const { lonDeg, latDeg } of poles) this.#index?.add(lonDeg, latDeg, lonDeg, latDeg);
    this.#index?.finish();
  }

  /** The nearest pole within 3 m of a position; of equal ones the first; null for none. */
  at(position: Position): PoleGiven | null {
    const [lonDeg, latDeg] = position as [number, number];
    const reachDeg = CARRIES_M / DEGREE_M;
    const wideDeg = reachDeg / Math.max(0.02, Math.cos((latDeg * Math.PI) / 180));
    const found = this.#index?.search(lonDeg - wideDeg, latDeg - reachDeg, lonDeg + wideDeg, latDeg + reachDeg) ?? [];
    const plane = planeOf(lonDeg);
    const [xM, yM] = toPlane(plane, lonDeg, latDeg);
    let best: PoleGiven | null = null;
    let leastM = CARRIES_M;
    for (const at of found.sort((one, other) => one - other)) {
      const pole = this.#poles[at]!;
      const [poleXM, poleYM] = toPlane(plane, pole.lonDeg, pole.latDeg);
      const awayM = Math.hypot(poleXM - xM, poleYM - yM);
      if (awayM > leastM || (best !== null && awayM === leastM)) continue;
      best = pole;
      leastM = awayM;
    }
    return best;
  }
}
