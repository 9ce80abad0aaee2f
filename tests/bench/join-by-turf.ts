import { pointToPolygonDistance, polygon } from "@turf/turf";
import { JOIN_M, type JoinInput } from "./join-by-own-index.ts";

/** The same join by Turf without an index, every building for every tree, on the sphere; for a few trees, as all would take hours. */
export function joinByTurf({ trees, buildings }: JoinInput): number {
  const shapes = buildings.map((ring) => polygon([ring.map((place) => [...place])]));
  let sumM = 0;
  for (const place of trees) {
    let nearestM = Number.POSITIVE_INFINITY;
    for (const shape of shapes) {
      nearestM = Math.min(nearestM, Math.max(0, pointToPolygonDistance([...place], shape, { units: "meters" })));
    }
    if (nearestM <= JOIN_M) sumM += nearestM;
  }
  return sumM;
}
