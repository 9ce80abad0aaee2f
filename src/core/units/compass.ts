const POINTS = ["north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest"] as const;

/**
 * The nearest of the eight compass points to a bearing in degrees clockwise from north; any finite bearing is wrapped.
 *
 * @example compassPoint(350) // "north"
 */
export function compassPoint(bearingDeg: number): (typeof POINTS)[number] {
  const eighth = Math.round(bearingDeg / 45) % 8;
  return POINTS[eighth < 0 ? eighth + 8 : eighth]!;
}

/** Angle in degrees between two bearings, 0 to 180. */
export function bearingGapDeg(oneDeg: number, otherDeg: number): number {
  const turn = Math.abs(oneDeg - otherDeg) % 360;
  return turn > 180 ? 360 - turn : turn;
}
