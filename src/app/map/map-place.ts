/** The middle of the map and how near it is. */
export interface MapPlace {
  readonly lonDeg: number;
  readonly latDeg: number;
  readonly zoom: number;
}

/** Half of the last digit that a link holds of longitude and latitude, and of the zoom. */
const PLACE_DEG = 0.000005;
const ZOOM = 0.05;

/** Whether a link would tell the two apart. */
export const samePlace = (one: MapPlace, other: MapPlace): boolean =>
  Math.abs(one.lonDeg - other.lonDeg) <= PLACE_DEG &&
  Math.abs(one.latDeg - other.latDeg) <= PLACE_DEG &&
  Math.abs(one.zoom - other.zoom) <= ZOOM;
