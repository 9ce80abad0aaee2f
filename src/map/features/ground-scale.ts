/** Semi-major axis of WGS 84 in meters; the web map's sphere. */
const EARTH_RADIUS_M = 6_378_137;
const DEG = Math.PI / 180;

/** CSS pixels of the whole web map at zoom 0 in MapLibre, which draws tiles of 512 pixels. */
const WORLD_PX = 512;

/** Meters on the ground in one CSS pixel at zoom 0 on the equator; halves with every zoom and shrinks with cos(latitude). */
export const METERS_PER_PX_AT_ZOOM_0 = (2 * Math.PI * EARTH_RADIUS_M) / WORLD_PX;

/** Zoom at which a length on the ground is `px` pixels long at a latitude. */
export const zoomAtPx = (lengthM: number, px: number, latDeg: number): number =>
  Math.log2((px * METERS_PER_PX_AT_ZOOM_0 * Math.cos(latDeg * DEG)) / lengthM);

/**
 * Longitude and latitude of the point some meters east and north of another, by the radii of curvature of WGS 84 at its latitude;
 * good to a millimeter within a crown's width.
 */
export function offsetLonLat(lonDeg: number, latDeg: number, eastM: number, northM: number): [number, number] {
  const eccentricitySquared = 0.006_694_379_990_14;
  const sine = Math.sin(latDeg * DEG);
  const root = Math.sqrt(1 - eccentricitySquared * sine * sine);
  const normalM = EARTH_RADIUS_M / root;
  const meridianM = (EARTH_RADIUS_M * (1 - eccentricitySquared)) / root ** 3;
  return [lonDeg + eastM / (normalM * Math.cos(latDeg * DEG)) / DEG, latDeg + northM / meridianM / DEG];
}
