/**
 * Intersection sight distance in feet along the major road at a design speed in mph and a time gap in seconds, unrounded: 1.47 V t (TxDOT
 * Roadway Design Manual 13.5). Published design values are this rounded up to the next 5 ft by `roundUpTo5`. Throws RangeError for a
 * negative speed or gap.
 */
export function intersectionSightDistanceFt(speedMph: number, gapS: number): number {
  if (!(speedMph >= 0 && gapS >= 0))
    throw new RangeError(`Expected speed and gap of 0 or more, got ${speedMph}, ${gapS}`);
  return 1.47 * speedMph * gapS;
}

/** The same in meters at km/h: 0.278 V t (Green Book, metric form). */
export function intersectionSightDistanceM(speedKmh: number, gapS: number): number {
  if (!(speedKmh >= 0 && gapS >= 0))
    throw new RangeError(`Expected speed and gap of 0 or more, got ${speedKmh}, ${gapS}`);
  return 0.278 * speedKmh * gapS;
}

/**
 * A distance rounded up to the next multiple of 5, the way sight distances are published. What exceeds a multiple by less than a millionth
 * is the arithmetic of doubles, not distance, and stays there.
 */
export function roundUpTo5(distance: number): number {
  return Math.ceil(distance / 5 - 2e-7) * 5;
}
