import { findConflicts } from "../../../src/core/conflict/find-conflicts.ts";
import type { Conflict } from "../../../src/core/model/conflict.ts";
import { treeTable } from "../../../src/core/model/tree-table.ts";
import type { Tree } from "../../../src/core/model/trees.ts";
import { buildSurroundings } from "../../../src/core/surroundings/build-surroundings.ts";
import { at, features, line, OPTIONS, type Points, polygon, STANDARD } from "../../core/conflict/scene.ts";

/** Things that a tree is placed beside, one of them a tree. */
export const THINGS = ["road", "walk", "building", "wire"] as const;
export type Thing = (typeof THINGS)[number];

/** What stands to the east of a tree: the thing, how far, and for buildings and wires how high. */
export interface Beside {
  readonly thing: Thing;
  readonly distanceM: number;
  readonly heightM: number;
}

/** Trees stand so far apart that none is near another's thing. */
const APART_M = 150;
const ACROSS = 50;
const placeOf = (index: number): [number, number] => [
  ((index % ACROSS) - ACROSS / 2) * APART_M,
  Math.floor(index / ACROSS) * APART_M,
];

/** Longitude and latitude of the trunk of a tree by its number. */
export const lonLatOf = (index: number): [number, number] => at(...placeOf(index)) as [number, number];

/** All surveyed: a road, walk or building 8 m deep and 60 m long, or a taut 12 kV line, running north and south. */
export function besideEach(list: readonly Beside[]): ReturnType<typeof buildSurroundings>["surroundings"] {
  const strip = (index: number): Points => {
    const [x, y] = placeOf(index);
    const near = x + list[index]!.distanceM;
    return [
      [near, y - 30],
      [near + 8, y - 30],
      [near + 8, y + 30],
      [near, y + 30],
    ];
  };
  const of = (thing: Thing): number[] => list.flatMap((one, index) => (one.thing === thing ? [index] : []));
  const layers = {
    roads: features(
      "roads",
      ...of("road").map((index) => ({
        geometry: polygon(strip(index)),
        properties: { id: String(index), class: "local" },
      })),
    ),
    paths: features(
      "paths",
      ...of("walk").map((index) => ({
        geometry: polygon(strip(index)),
        properties: { id: String(index), class: "sidewalk" },
      })),
    ),
    buildings: features(
      "buildings",
      ...of("building").map((index) => ({
        geometry: polygon(strip(index)),
        properties: { id: String(index), height: list[index]!.heightM },
      })),
    ),
    conductors: features(
      "conductors",
      ...of("wire").map((index) => ({
        geometry: line(
          strip(index)
            .slice(0, 1)
            .concat([[strip(index)[0]![0], strip(index)[2]![1]]]),
        ),
        properties: {
          id: String(index),
          voltage: 12_000,
          attachment_height_1: list[index]!.heightM,
          attachment_height_2: list[index]!.heightM,
          sag: 0.3,
          conductor: "4/0 6/1 ACSR",
        },
      })),
    ),
  };
  return buildSurroundings(layers, {}, STANDARD, OPTIONS).surroundings;
}

/** Conflicts of today, or possibly of today, by the tree's number and the kind; those to come by growth are left out. */
export function conflictsToday(
  trees: readonly Tree[],
  surroundings: ReturnType<typeof besideEach>,
): ReadonlyMap<string, Conflict> {
  const still = trees.map((tree) => ({
    ...tree,
    traits: { ...tree.traits, heightGrowthMPerYear: 0, radiusGrowthMPerYear: 0 },
  }));
  const standard = { ...STANDARD, pruning: { ...STANDARD.pruning, droopMPerYear: 0 } };
  const { conflicts } = findConflicts(treeTable(still), surroundings, standard, OPTIONS, new Map());
  return new Map(conflicts.map((conflict) => [`${conflict.withId} ${conflict.kind}`, conflict]));
}
