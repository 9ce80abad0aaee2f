import { projectInto, unproject } from "./transverse-mercator.ts";

/** Width in degrees of longitude of one plane's strip: half of it, 14 km at the equator, has a scale error of 2.4e-6, 0.24 mm in 100 m. */
export const STRIP_DEG = 0.25;
const STRIP_COUNT = 360 / STRIP_DEG;

/** How far in meters beyond its strip's edges a plane holds what stands around: longer than any sight triangle's leg. */
export const HALO_M = 1000;

/** Shortest length in meters of one degree of longitude that halos are computed with; nearer the poles no street trees stand. */
const MIN_DEGREE_M = 1000;

/**
 * Number of the plane a longitude is measured in, 0 to 1439. The planes are strips of 0.25 degrees about fixed meridians, so that the
 * answer never depends on what else is in the data. 180 and -180 are one.
 */
export function planeOf(lonDeg: number): number {
  const strip = Math.round(lonDeg / STRIP_DEG) % STRIP_COUNT;
  return strip < 0 ? strip + STRIP_COUNT : strip + 0;
}

/** Longitude in degrees of a plane's central meridian, -179.75 to 180; exact in binary. */
export function centralMeridianDeg(plane: number): number {
  return plane * 2 > STRIP_COUNT ? (plane - STRIP_COUNT) * STRIP_DEG : plane * STRIP_DEG;
}

/**
 * Planes whose strip, widened by the halo, meets the longitudes from `westDeg` east to `eastDeg`, westernmost first. `eastDeg` may pass
 * 180 for a span across the antimeridian. `latDeg` is the latitude farthest from the equator, where the halo is widest in degrees.
 */
export function planesAcross(westDeg: number, eastDeg: number, latDeg: number, haloM = HALO_M): number[] {
  const degreeM = Math.max(MIN_DEGREE_M, 111_320 * Math.cos((latDeg * Math.PI) / 180));
  const haloDeg = haloM / degreeM;
  const first = Math.ceil((westDeg - haloDeg) / STRIP_DEG - 0.5);
  const last = Math.min(first + STRIP_COUNT - 1, Math.floor((eastDeg + haloDeg) / STRIP_DEG + 0.5));
  const planes: number[] = [];
  for (let strip = first; strip <= last; strip += 1) planes.push(((strip % STRIP_COUNT) + STRIP_COUNT) % STRIP_COUNT);
  return planes;
}

/** Writes a point's easting and northing in meters in a plane into `out[at]` and `out[at + 1]`; across the antimeridian the short way. */
export function toPlaneInto(out: Float64Array, at: number, plane: number, lonDeg: number, latDeg: number): void {
  projectInto(out, at, wrapped(lonDeg - centralMeridianDeg(plane)), latDeg);
}

/**
 * Easting and northing in meters of a point in a plane: x from the central meridian, y from the equator. Distances up to 100 m in a
 * point's own plane are exact to a millimeter. Axes are the grid's: at a strip's edge grid north is off true north by at most
 * 0.125 degrees times the sine of the latitude.
 */
export function toPlane(plane: number, lonDeg: number, latDeg: number): readonly [xM: number, yM: number] {
  const out = new Float64Array(2);
  toPlaneInto(out, 0, plane, lonDeg, latDeg);
  return [out[0]!, out[1]!];
}

/** Longitude, -180 to 180, and latitude in degrees of a point of a plane. */
export function toLonLat(plane: number, xM: number, yM: number): readonly [lonDeg: number, latDeg: number] {
  const [eastDeg, latDeg] = unproject(xM, yM);
  return [wrapped(centralMeridianDeg(plane) + eastDeg), latDeg];
}

/**
 * A function from offsets in meters about a point of a plane to longitude and latitude in degrees, by the slopes at that point: for shapes
 * of a crown's size. Within 30 m it differs from {@link toLonLat} by less than a millimeter up to 80 degrees of latitude.
 */
export function lonLatAround(
  plane: number,
  xM: number,
  yM: number,
): (dxM: number, dyM: number) => [lonDeg: number, latDeg: number] {
  const [lonDeg, latDeg] = toLonLat(plane, xM, yM);
  const [eastLonDeg, eastLatDeg] = toLonLat(plane, xM + 1, yM);
  const [northLonDeg, northLatDeg] = toLonLat(plane, xM, yM + 1);
  const lonPerX = wrapped(eastLonDeg - lonDeg);
  const lonPerY = wrapped(northLonDeg - lonDeg);
  return (dxM, dyM) => [
    wrapped(lonDeg + dxM * lonPerX + dyM * lonPerY),
    latDeg + dxM * (eastLatDeg - latDeg) + dyM * (northLatDeg - latDeg),
  ];
}

const wrapped = (deg: number): number => (deg > 180 ? deg - 360 : deg < -180 ? deg + 360 : deg);
