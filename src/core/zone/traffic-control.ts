import type { RoadClass } from "../model/surroundings.ts";
import { stoppingSightDistanceFt } from "../standard/stopping-sight-distance-ft.ts";

// MUTCD: Manual on Uniform Traffic Control Devices, 11th edition 2023, read second-hand from two unrelated copies that agree.

/**
 * Length L in feet of a merging taper for a lane or shoulder `widthFt` wide at `speedMph`: W S^2 / 60 up to 40 mph, W S from 45 mph (MUTCD
 * Tables 6B-3 and 6B-4). Between 40 and 45 mph, where the tables have no row, the longer W S. Throws RangeError for a negative figure.
 */
export function mergingTaperFt(widthFt: number, speedMph: number): number {
  if (!(widthFt >= 0 && speedMph >= 0))
    throw new RangeError(`Expected width and speed of 0 or more, got ${widthFt}, ${speedMph}`);
  return speedMph <= 40 ? (widthFt * speedMph * speedMph) / 60 : widthFt * speedMph;
}

/** Shoulder taper in feet: a third of L with the shoulder's width (MUTCD Table 6B-3; published tables use L / 3, not 0.33 L). */
export const shoulderTaperFt = (widthFt: number, speedMph: number): number => mergingTaperFt(widthFt, speedMph) / 3;

/** Shifting taper in feet: half of L (MUTCD Table 6B-3). */
export const shiftingTaperFt = (widthFt: number, speedMph: number): number => mergingTaperFt(widthFt, speedMph) / 2;

/** One-lane two-way and downstream tapers in feet, 50 to 100 ft (MUTCD Table 6B-3); the longer and the shorter are planned. */
export const ONE_LANE_TAPER_FT = 100;
export const DOWNSTREAM_TAPER_FT = 50;
/** Devices about 20 ft apart in both. */
export const SHORT_TAPER_SPACING_FT = 20;

/**
 * Longitudinal buffer in feet at a speed in mph: MUTCD Table 6B-2, which is the design stopping sight distance, the level formula rounded up to the
 * next 5 ft, from the table's row for the same or the next higher speed; its last row, 75 mph, beyond.
 */
export function bufferFt(speedMph: number): number {
  const row = Math.min(75, Math.max(15, Math.ceil((speedMph - 0.5) / 5) * 5));
  return Math.ceil(stoppingSightDistanceFt(row) / 5 - 1e-6) * 5;
}

/** Greatest spacing of channelizing devices in feet in tapers and beside buffer and work: the speed in mph and twice that (MUTCD 6K.01). */
export const deviceSpacingFt = (speedMph: number): readonly [taperFt: number, tangentFt: number] => [
  speedMph,
  2 * speedMph,
];

/** Devices in a row of a length at a spacing, one at each end: ceil(L / S) + 1, computed, not printed in the manual. */
export const deviceCount = (lengthFt: number, spacingFt: number): number => Math.ceil(lengthFt / spacingFt - 1e-6) + 1;

/** Least height of cones in inches by day: 18 up to 40 mph, 28 from 45 mph (MUTCD 6K); the higher between. */
export const coneHeightIn = (speedMph: number): 18 | 28 => (speedMph <= 40.5 ? 18 : 28);

/** Faster city streets count as high speed. The manual leaves the limit to the agency; 30 mph is our policy. */
const LOW_SPEED_MPH = 30;

/** Spacing in feet of advance warning signs, nearest to the work first (MUTCD Table 6B-1). */
export function signSpacingFt(roadClass: RoadClass | null, speedMph: number): readonly [number, number, number] {
  if (roadClass === "freeway") return [1000, 1500, 2640];
  if (roadClass === "rural-two-lane") return [500, 500, 500];
  return speedMph <= LOW_SPEED_MPH + 0.5 ? [100, 100, 100] : [350, 350, 350];
}
