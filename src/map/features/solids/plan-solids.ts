import type { Geometry, Position } from "geojson";
import type { ConflictRecord } from "../../../core/model/conflict.ts";
import type { SurroundingFeature } from "../../../core/model/surroundings.ts";
import { metersFromFeet } from "../../../core/units/length.ts";
import type { LayerOptions } from "../../options.ts";
import type { PlanLook } from "../plan-look.ts";
import { polePlaces } from "../pole-places.ts";
import { buildingSolids, poleSolid, wayPanes, wireSolids } from "./around-solids.ts";
import { type BuildingMinimum, buildingPanes } from "./building-panes.ts";
import { type Surroundings, surroundingsOf } from "./encroachment-heights.ts";
import type { Solid } from "./solid.ts";
import { treeSolids } from "./tree-solids.ts";

/** A part of the ground in degrees, and its middle. */
export interface SolidGround {
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
  readonly middle: readonly [lonDeg: number, latDeg: number];
}

/** The solids of a part of the ground, and how many trees were stacked of those in it. */
export interface SolidsDrawn {
  readonly solids: readonly Solid[];
  readonly trees: number;
  readonly treesInView: number;
}

/** Most trees and most other things stacked at a time: what a plain graphics card turns smoothly. */
export const MOST_SOLID_TREES = 300;
const MOST_AROUND = 400;
/** Farthest in degrees that a wire's end belongs to a pole, about 4 m. */
const AT_POLE_DEG = 4e-5;

/** What is found once for a plan and serves every part of its ground. */
export class PlanSolids {
  readonly #around: Surroundings;
  readonly #conflicts: ConflictRecord[][] = [];
  /** Least free height over the ways that some tree is in conflict with. */
  readonly #minimumM = new Map<string, number>();
  readonly #buildingM = new Map<string, BuildingMinimum>();
  readonly #boxes: readonly (readonly [west: number, south: number, east: number, north: number])[];
  readonly #poles: readonly Position[];

  constructor(readonly look: PlanLook) {
    const { plan } = look.opened;
    this.#around = surroundingsOf(plan);
    for (const conflict of plan.conflicts) {
      const own = this.#conflicts[conflict.treeRow];
      if (own === undefined) this.#conflicts[conflict.treeRow] = [conflict];
      else own.push(conflict);
      if (conflict.withLayer === "roads" || conflict.withLayer === "paths")
        this.#minimumM.set(`${conflict.withLayer} ${conflict.withId}`, conflict.minimumM);
      else if (conflict.withLayer === "buildings") this.#takeBuilding(conflict);
    }
    this.#boxes = plan.surroundings.map(({ geometry }) => boxOf(geometry));
    this.#poles = polePlaces(plan.surroundings).map(({ at }) => at);
  }

  /** The solids on a part of the ground; of more trees than can be stacked those nearest its middle. */
  on(ground: SolidGround, options: LayerOptions): SolidsDrawn {
    const { plan } = this.look.opened;
    const units = options.units ?? plan.options.units;
    const layerM = units === "us" ? metersFromFeet(3) : 1;
    const inView = plan.trees.filter(({ lonDeg, latDeg }) => isOn(ground, [lonDeg, latDeg, lonDeg, latDeg]));
    const rows = nearest(inView, ground, MOST_SOLID_TREES);
    const around = this.#aroundNearest(ground);
    return {
      solids: [
        ...around.flatMap((one) => this.#aroundSolids(one)),
        ...this.#poleSolids(ground, around),
        ...rows.flatMap(({ row }) => treeSolids(this.look, row, this.#conflicts[row] ?? [], this.#around, layerM)),
      ],
      trees: rows.length,
      treesInView: inView.length,
    };
  }

  #takeBuilding({ kind, withId, minimumM }: ConflictRecord) {
    const { sideM, roofM } = this.#buildingM.get(withId) ?? { sideM: null, roofM: null };
    this.#buildingM.set(withId, kind === "building-roof" ? { sideM, roofM: minimumM } : { sideM: minimumM, roofM });
  }

  /** What stands in view around the trees, the nearest to the middle where that is too much. */
  #aroundNearest(ground: SolidGround): readonly SurroundingFeature[] {
    const { surroundings } = this.look.opened.plan;
    const [lonDeg, latDeg] = ground.middle;
    const inView = surroundings.flatMap((one, at) => {
      const box = this.#boxes[at]!;
      if (!isOn(ground, box)) return [];
      const eastDeg = Math.max(box[0] - lonDeg, 0, lonDeg - box[2]);
      return [{ one, farDeg: Math.hypot(eastDeg, Math.max(box[1] - latDeg, 0, latDeg - box[3])) }];
    });
    if (inView.length <= MOST_AROUND) return inView.map(({ one }) => one);
    return inView
      .sort((one, other) => one.farDeg - other.farDeg)
      .slice(0, MOST_AROUND)
      .map(({ one }) => one);
  }

  #aroundSolids(one: SurroundingFeature): Solid[] {
    if (one.layer === "buildings") {
      const minimum = this.#buildingM.get(one.id);
      return [...buildingSolids(one), ...(minimum === undefined ? [] : buildingPanes(one, minimum))];
    }
    if (one.layer === "conductors") return wireSolids(one);
    const minimumM = this.#minimumM.get(`${one.layer} ${one.id}`);
    return minimumM === undefined ? [] : wayPanes(one, minimumM);
  }

  #poleSolids(ground: SolidGround, around: readonly SurroundingFeature[]): Solid[] {
    const ends = around.flatMap(({ geometry, wire }) =>
      geometry.type === "LineString" && wire?.attachmentsM !== undefined
        ? geometry.coordinates.map((at, vertex) => [at, wire.attachmentsM![vertex] ?? 0] as const)
        : [],
    );
    return this.#poles.flatMap((pole) => {
      const [lonDeg = 0, latDeg = 0] = pole;
      if (!isOn(ground, [lonDeg, latDeg, lonDeg, latDeg])) return [];
      const heightM = ends.reduce(
        (most, [[lon = 0, lat = 0], attachmentM]) =>
          Math.abs(lon - lonDeg) < AT_POLE_DEG && Math.abs(lat - latDeg) < AT_POLE_DEG
            ? Math.max(most, attachmentM)
            : most,
        0,
      );
      return heightM > 0 ? [poleSolid(pole, heightM + 0.3)] : [];
    });
  }
}

function nearest<T extends { readonly lonDeg: number; readonly latDeg: number }>(
  all: readonly T[],
  { middle: [lonDeg, latDeg] }: SolidGround,
  most: number,
): readonly T[] {
  if (all.length <= most) return all;
  const shrink = Math.cos((latDeg * Math.PI) / 180);
  const far = (one: T) => Math.hypot((one.lonDeg - lonDeg) * shrink, one.latDeg - latDeg);
  return [...all].sort((one, other) => far(one) - far(other)).slice(0, most);
}

const isOn = (
  { west, south, east, north }: SolidGround,
  [left, bottom, right, top]: readonly [number, number, number, number],
): boolean => left <= east && right >= west && bottom <= north && top >= south;

function boxOf(geometry: Geometry): readonly [number, number, number, number] {
  const box: [number, number, number, number] = [Infinity, Infinity, -Infinity, -Infinity];
  const take = (value: unknown): void => {
    if (!Array.isArray(value)) return;
    if (typeof value[0] !== "number") {
      for (const one of value) take(one);
      return;
    }
    const [lon, lat] = value as [number, number];
    box[0] = Math.min(box[0], lon);
    box[1] = Math.min(box[1], lat);
    box[2] = Math.max(box[2], lon);
    box[3] = Math.max(box[3], lat);
  };
  if (geometry.type !== "GeometryCollection") take(geometry.coordinates);
  return box;
}
