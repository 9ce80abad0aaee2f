/** Perception and reaction, seconds, and deceleration, ft/s2: TxDOT Roadway Design Manual 4.11.1, as in the Green Book. */
const REACTION_S = 2.5;
const DECELERATION_FT_S2 = 11.2;

/**
 * Stopping sight distance in feet on level road at a design speed in mph, unrounded: 1.47 V t + 1.075 V^2 / a (TxDOT Roadway Design
 * Manual 4.11.1). Published design values are this rounded up to the next 5 ft by `roundUpTo5`. Throws RangeError for a negative speed.
 */
export function stoppingSightDistanceFt(speedMph: number): number {
  if (!(speedMph >= 0)) throw new RangeError(`Expected a speed of 0 mph or more, got ${speedMph}`);
  return 1.47 * speedMph * REACTION_S + (1.075 * speedMph * speedMph) / DECELERATION_FT_S2;
}
