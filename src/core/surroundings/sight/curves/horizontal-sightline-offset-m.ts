/**
 * Horizontal sightline offset in meters: how far to the inside of a curve of radius `radiusM`, measured from the center of the inside lane at the
 * middle of the line of sight, the ground must be free to see `sightM` along that lane. R (1 - cos(S / 2R)): the Green Book's
 * R (1 - cos(28.65 S / R)) in degrees without its rounding of 90/pi; Montana Road Design Manual appendix K has it so.
 *
 * Holds where the curve is at least as long as the sight distance; on a shorter curve, and near the ends of a longer one, the offset is less.
 * Throws RangeError for a radius of 0 or less and for a negative distance. Past half a circle it is the diameter.
 */
export function horizontalSightlineOffsetM(radiusM: number, sightM: number): number {
  if (!(radiusM > 0 && sightM >= 0)) {
    throw new RangeError(`Expected a radius above 0 m and a distance of 0 m or more, got ${radiusM}, ${sightM}`);
  }
  return radiusM * (1 - Math.cos(Math.min(Math.PI, sightM / (2 * radiusM))));
}

/** The reverse: how far in meters is seen along the inside lane past something at an offset; Infinity when it stands beyond the circle. */
export function sightPastOffsetM(radiusM: number, offsetM: number): number {
  if (!(radiusM > 0 && offsetM >= 0)) {
    throw new RangeError(`Expected a radius above 0 m and an offset of 0 m or more, got ${radiusM}, ${offsetM}`);
  }
  return offsetM > 2 * radiusM ? Number.POSITIVE_INFINITY : 2 * radiusM * Math.acos(1 - offsetM / radiusM);
}
