import { Neighborhood } from "../../src/core/plane/neighborhood.ts";
import { planeOf, toPlane } from "../../src/core/plane/plane.ts";
import { ShapesBuilder } from "../../src/core/plane/shapes-builder.ts";

/** A city as the joins take it: places of trees, outlines of buildings in longitude and latitude. */
export interface JoinInput {
  readonly trees: readonly (readonly number[])[];
  readonly buildings: readonly (readonly (readonly number[])[])[];
}

/** The joins look for the nearest building this near to each tree, meters. */
export const JOIN_M = 12;

/**
 * Sum in meters of each tree's distance to the nearest building within {@link JOIN_M}, 0 inside: by the code of the conflict search, projecting and
 * building the index included.
 */
export function joinByOwnIndex({ trees, buildings }: JoinInput): number {
  const builder = new ShapesBuilder();
  buildings.forEach((ring, owner) => {
    builder.addArea(owner, [ring as [number, number][]]);
  });
  const planes = builder.finish();
  const around = new Neighborhood();
  let sumM = 0;
  for (const [lonDeg, latDeg] of trees as readonly (readonly [number, number])[]) {
    const plane = planeOf(lonDeg);
    const shapes = planes.get(plane);
    if (shapes === undefined) continue;
    const [xM, yM] = toPlane(plane, lonDeg, latDeg);
    around.search(shapes, xM, yM, JOIN_M);
    let nearestM = Number.POSITIVE_INFINITY;
    for (let at = 0; at < around.itemCount; at += 1) {
      around.load(at, JOIN_M);
      nearestM = Math.min(nearestM, around.isInside ? 0 : around.nearest.distanceM);
    }
    if (nearestM <= JOIN_M) sumM += nearestM;
  }
  return sumM;
}
