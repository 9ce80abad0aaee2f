/** Perception and reaction, seconds, and deceleration, ft/s2: TxDOT Roadway Design Manual 4.11.1, as in the Green Book. */
const REACTION_S = 2.5;
const DECELERATION_FT_S2 = 11.2;

/** The same, m/s2, and acceleration of gravity in ft/s2 as the formulas have it. */
const DECELERATION_M_S2 = 3.4;
const GRAVITY_FT_S2 = 32.2;

/**
 * Stopping sight distance in feet at a design speed in mph, unrounded. On level road 1.47 V t + 1.075 V^2 / a (TxDOT Roadway Design
 * Manual 4.11.1); published design values are this rounded up to the next 5 ft by `roundUpTo5`. On a grade in percent, upgrade positive,
 * 1.47 V t + V^2 / (30 (a / 32.2 + G)) (Montana Road Design Manual, equation 2.8-3). Throws RangeError for a negative speed, and for a downgrade
 * on which nothing stops.
 */
export function stoppingSightDistanceFt(speedMph: number, gradePercent = 0): number {
  if (!(speedMph >= 0)) throw new RangeError(`Expected a speed of 0 mph or more, got ${speedMph}`);
  const reactionFt = 1.47 * speedMph * REACTION_S;
  // The two forms differ by a foot at 80 mph; the published level values are of this one.
  if (gradePercent === 0) return reactionFt + (1.075 * speedMph * speedMph) / DECELERATION_FT_S2;
  const friction = DECELERATION_FT_S2 / GRAVITY_FT_S2 + gradePercent / 100;
  if (!(friction > 0)) throw new RangeError(`Expected a grade on which a vehicle stops, got ${gradePercent} %`);
  return reactionFt + (speedMph * speedMph) / (30 * friction);
}

/** On level road in meters at km/h: 0.278 V t + 0.039 V^2 / a (Green Book equation 3-2, metric, from memory). */
export function stoppingSightDistanceM(speedKmh: number): number {
  if (!(speedKmh >= 0)) throw new RangeError(`Expected a speed of 0 km/h or more, got ${speedKmh}`);
  return 0.278 * speedKmh * REACTION_S + (0.039 * speedKmh * speedKmh) / DECELERATION_M_S2;
}
