import type { Geometry, Position } from "geojson";

/** All positions of a geometry, part by part. */
export function positionsOf(geometry: Geometry): Position[] {
  if (geometry.type === "GeometryCollection") return geometry.geometries.flatMap(positionsOf);
  const found: Position[] = [];
  const collect = (coordinates: unknown): void => {
    const list = coordinates as readonly unknown[];
    if (typeof list[0] === "number") found.push(list as Position);
    else for (const one of list) collect(one);
  };
  collect(geometry.coordinates);
  return found;
}

/** Whether every position of a geometry has a height; heights of some positions only are left out of table files. */
export function hasZ(geometry: Geometry): boolean {
  const positions = positionsOf(geometry);
  return positions.length > 0 && positions.every((position) => position.length >= 3);
}

/** Smallest box around a geometry: west, south, east, north; null for one without positions. */
export function boxOf(geometry: Geometry): [number, number, number, number] | null {
  const box: [number, number, number, number] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x = Number.NaN, y = Number.NaN] of positionsOf(geometry)) {
    if (x < box[0]) box[0] = x;
    if (y < box[1]) box[1] = y;
    if (x > box[2]) box[2] = x;
    if (y > box[3]) box[3] = y;
  }
  return box[0] === Infinity ? null : box;
}

/** Smallest box around boxes; null for none. */
export function joinBoxes(
  boxes: Iterable<readonly [number, number, number, number] | null>,
): [number, number, number, number] | null {
  let joined: [number, number, number, number] | null = null;
  for (const box of boxes) {
    if (box === null) continue;
    joined =
      joined === null
        ? [...box]
        : [
            Math.min(joined[0], box[0]),
            Math.min(joined[1], box[1]),
            Math.max(joined[2], box[2]),
            Math.max(joined[3], box[3]),
          ];
  }
  return joined;
}
