/** Bearing in degrees clockwise from grid north, 0 up to but not including 360, of a step in a plane; 0 for no step. */
export function bearingDeg(dxM: number, dyM: number): number {
  const bearing = (Math.atan2(dxM, dyM) * 180) / Math.PI;
  const positive = bearing < 0 ? bearing + 360 : bearing;
  return positive >= 360 ? 0 : positive + 0;
}

/** Turn in degrees from one bearing to another, clockwise positive, above -180 up to 180. */
export function turnDeg(fromDeg: number, toDeg: number): number {
  const turn = (((toDeg - fromDeg) % 360) + 360) % 360;
  return turn > 180 ? turn - 360 : turn;
}
