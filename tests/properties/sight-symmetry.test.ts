import { describe, expect, it } from "vitest";
import type { SightArea } from "../../src/core/model/surroundings.ts";
import { planeOf, toPlane } from "../../src/core/plane/plane.ts";
import { resolveStandard } from "../../src/core/standard/resolve-standard.ts";
import type { Standard } from "../../src/core/standard/standard.ts";
import { buildSurroundings } from "../../src/core/surroundings/build-surroundings.ts";
import { features, line, OPTIONS, ORIGIN, type Points, point } from "../core/conflict/scene.ts";

type XY = readonly [number, number];

/** One triangle as it is compared: what it is for, how long, and its corners in meters from the origin, to the centimeter, in one order. */
interface Shape {
  readonly movement: string;
  readonly legM: number;
  readonly corners: readonly XY[];
}

const plane = planeOf(ORIGIN.lonDeg);
const [originX, originY] = toPlane(plane, ORIGIN.lonDeg, ORIGIN.latDeg);

/** Mirrored turns swap their names. */
const MIRRORED: Readonly<Record<string, string>> = { "left-turn": "right-turn", "right-turn": "left-turn" };

function shapeOf(area: SightArea): Shape {
  const corners = area.ring.slice(0, -1).map(([lonDeg, latDeg]): XY => {
    const [x, y] = toPlane(plane, lonDeg, latDeg);
    return [x - originX, y - originY];
  });
  return { movement: area.movement, legM: area.legM, corners };
}

/** Two cm: the plane's own scale over a leg of 200 m, and doubles. */
const CLOSE_M = 0.02;

/** Two triangles are one when each corner of either lies on a corner of the other. */
function isSame(one: Shape, other: Shape): boolean {
  if (one.movement !== other.movement || Math.abs(one.legM - other.legM) > 1e-9) return false;
  const covers = (these: readonly XY[], those: readonly XY[]): boolean =>
    these.every(([x, y]) => those.some(([u, v]) => Math.hypot(x - u, y - v) <= CLOSE_M));
  return covers(one.corners, other.corners) && covers(other.corners, one.corners);
}

function expectSame(found: readonly Shape[], wanted: readonly Shape[]): void {
  expect(found.length).toBe(wanted.length);
  expect(wanted.filter((shape) => !found.some((one) => isSame(one, shape)))).toEqual([]);
}

type Control = "stop" | "yield" | "signal" | "all-way" | "none";

/** Four legs of two lanes, 30 mph, of one class unless stopped: a symmetric crossing. */
function crossing(
  control: Control,
  standard: Standard,
  drive: "right" | "left" = "right",
  place: (at: XY) => XY = (at) => at,
): Shape[] {
  const road = (points: Points, name: string) => ({
    geometry: line(points.map(place)),
    properties: { class: "collector", speed: "30 mph", lanes: 2, width: "24 ft", name },
  });
  const arms: readonly Points[] = [
    [
      [0, 0],
      [0, -150],
      [0, -400],
    ],
    [
      [0, 0],
      [150, 0],
      [400, 0],
    ],
    [
      [0, 0],
      [0, 400],
    ],
    [
      [0, 0],
      [-400, 0],
    ],
  ];
  const side = drive === "right" ? 1 : -1;
  // Signs beside the legs from the south and from the north, on the side their drivers look for them; for all-way on the other two as well.
  const two: XY[] = [
    [side * 6, -12],
    [-side * 6, 12],
  ];
  const four: XY[] = [...two, [12, side * 6], [-12, -side * 6]];
  const at = control === "stop" || control === "yield" ? two : control === "all-way" ? four : [];
  const kind = control === "all-way" ? "stop" : control;
  const { surroundings } = buildSurroundings(
    {
      roads: features("roads", ...arms.map((arm, number) => road(arm, `arm ${number}`))),
      signs: features("signs", ...at.map((xy) => ({ geometry: point(...place(xy)), properties: { kind } }))),
      signals: features("signals", ...(control === "signal" ? [{ geometry: point(...place([3, 3])) }] : [])),
    },
    {},
    standard,
    { ...OPTIONS, drive },
  );
  return surroundings.sight.filter(({ kind }) => kind === "sight-triangle").map(shapeOf);
}

function standardWith(sight: Record<string, unknown>): Standard {
  const resolved = resolveStandard({ extends: "us-common", title: "test", sight });
  if ("faults" in resolved) throw new Error(resolved.faults.join("; "));
  return resolved.standard;
}

const turned =
  (deg: number) =>
  ([x, y]: XY): XY => {
    const [cos, sin] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
    return [x * cos - y * sin, x * sin + y * cos];
  };
const mirrored = ([x, y]: XY): XY => [-x, y];
const moved = (shapes: readonly Shape[], place: (at: XY) => XY): Shape[] =>
  shapes.map((shape) => ({ ...shape, corners: shape.corners.map(place) }));

/** Turning on red wherever one drives, so that both sides of the road have the same cases. */
const DEPARTURE = standardWith({ turnOnRed: "always" });
const CORNER = standardWith({ method: "corner" });
const CASES: readonly (readonly [Control, Standard, number])[] = [
  // Two stopped legs that each see both ways.
  ["stop", DEPARTURE, 4],
  // Two yielding legs, both ways, turning and crossing.
  ["yield", DEPARTURE, 8],
  // Four corners.
  ["none", DEPARTURE, 4],
  // Four legs: the turn on red one way, the first car the other.
  ["signal", DEPARTURE, 8],
  // Four legs, both ways.
  ["all-way", DEPARTURE, 8],
  ["stop", CORNER, 4],
];

describe.each(CASES)("a symmetric crossing, %s", (control, standard, count) => {
  const shapes = crossing(control, standard);

  it("has every triangle it should", () => {
    expect(shapes.length).toBe(count);
  });

  it("has the same triangles half a turn on", () => {
    expectSame(moved(shapes, turned(180)), shapes);
  });

  // Where two of the four legs are controlled a quarter turn is another crossing.
  if (["none", "signal", "all-way"].includes(control) || standard === CORNER) {
    it("and a quarter turn on", () => {
      expectSame(moved(shapes, turned(90)), shapes);
    });
  }

  it.each([17, 90, 133, 270])("turns with the roads by %i degrees", (deg) => {
    expectSame(crossing(control, standard, "right", turned(deg)), moved(shapes, turned(deg)));
  });

  it("is the mirror image where one drives on the left", () => {
    const left = crossing(control, standard, "left", (at) => at);
    const image = moved(shapes, mirrored).map((shape) => ({
      ...shape,
      movement: MIRRORED[shape.movement] ?? shape.movement,
    }));
    expectSame(left, image);
  });
});
