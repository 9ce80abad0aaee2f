import type { Geometry, Position } from "geojson";
import { expect, test } from "vitest";
import type { SurroundingFeature } from "../../../src/core/model/surroundings.ts";
import { polePlaces } from "../../../src/map/features/pole-places.ts";
import { smallOpenedPlan } from "../small-opened-plan.ts";

const [any] = smallOpenedPlan().plan.surroundings;
const of = (geometry: Geometry): SurroundingFeature => ({ ...any!, layer: "conductors", geometry });
const wire = (...coordinates: Position[]) => of({ type: "LineString", coordinates });
/** Meters as degrees on the equator, where a degree is 111,320 m both ways. */
const m = (meters: number) => meters / 111_320;
const at = (eastM: number, northM: number): Position => [m(eastM), m(northM)];

test("two spans that meet hang on a pole between them, turned with the longer one", () => {
  const poles = polePlaces([wire(at(-30, 0), at(0, 0)), wire(at(0, 0), at(40, 40))]);
  expect(poles).toHaveLength(1);
  expect(poles[0]!.at).toEqual(at(0, 0));
  // The second is 56 m long and runs to the northeast.
  expect(poles[0]!.turnDeg).toBeCloseTo(45, 6);
});

test("three wires side by side hang on one pole at each end", () => {
  const spans = [-1, 0, 1].map((eastM) => wire(at(eastM, 0), at(eastM, 40)));
  const poles = polePlaces(spans);
  expect(poles).toHaveLength(2);
  for (const pole of poles) expect(pole.turnDeg).toBeCloseTo(0, 6);
});

test("a wire's lone end, as at a house, is no pole; a pole that is given always is", () => {
  expect(polePlaces([wire(at(0, 0), at(20, 0))])).toEqual([]);
  const [pole, ...others] = polePlaces([of({ type: "Point", coordinates: at(0, 1) }), wire(at(0, 0), at(20, 0))]);
  expect(pole?.at).toEqual(at(0, 1));
  expect(pole?.turnDeg).toBeCloseTo(90, 6);
  expect(others).toEqual([]);
});

test("ends farther apart than 3 m hang on different poles, at any latitude", () => {
  // 12 m of longitude on the equator are 2.05 m at 80 degrees north (cos 80 = 0.1736), 18 m are 3.1 m.
  const near = [wire([0, 80], [0, 80.001]), wire([m(11.8), 80], [m(11.8), 80.001])];
  expect(polePlaces(near)).toHaveLength(2);
  const far = [wire([0, 80], [0, 80.001]), wire([m(18), 80], [m(18), 80.001])];
  expect(polePlaces(far)).toEqual([]);
});
