import { curve, isInside, type Line, type Point } from "./line.ts";

/** Ground without lots. */
export interface Ground {
  readonly name: string;
  readonly ring: Line;
}

const box = (left: number, bottom: number, right: number, top: number): Line => [
  [left, bottom],
  [right, bottom],
  [right, top],
  [left, top],
];

export const GROUNDS = {
  green: { name: "Station Green", ring: box(131, 14, 229, 90) },
  school: { name: "School grounds", ring: box(-228, 210, -132, 288) },
  orchard: { name: "Orchard", ring: box(-474, 60, -384, 190) },
  church: { name: "Chapel yard", ring: box(-228, -90, -186, -16) },
} as const satisfies Record<string, Ground>;

export const isOnGrounds = (point: Point): boolean =>
  Object.values(GROUNDS).some((ground) => isInside(point, ground.ring));

/** The 69 kV line along the east edge; nothing is built below it. */
export const TRANSMISSION_LINE: Line = [
  [588, 60],
  [566, -30],
  [560, -120],
  [566, -210],
  [580, -296],
];

/** The shared path between River Road and the river. */
export const RIVER_PATH: Line = curve([
  [-462, -200],
  [-360, -214],
  [-240, -232],
  [-120, -240],
  [0, -235],
  [120, -219],
  [240, -212],
  [360, -225],
  [462, -251],
  [572, -287],
]);

/** Walks through the green and the school grounds. */
export const GROUND_WALKS: readonly Line[] = [
  curve([
    [127.5, 12],
    [150, 30],
    [180, 52],
    [206, 70],
    [232.4, 91],
  ]),
  curve([
    [232.4, 13],
    [210, 32],
    [180, 52],
    [152, 74],
    [127.5, 91],
  ]),
  curve([
    [-180, 288],
    [-176, 264],
    [-152, 242],
    [-148, 208.5],
  ]),
];
