import type { RoadClass } from "../model/surroundings.ts";

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

/** One-lane two-way taper in feet, 50 to 100 ft (MUTCD Table 6B-3); the longer is planned. */
export const ONE_LANE_TAPER_FT = 100;

/** Feet by mph: MUTCD Table 6B-2, equal to the design stopping sight distances of the Green Book; 15 mph from the latter. */
const BUFFER_FT: readonly (readonly [speedMph: number, bufferFt: number])[] = [
  [15, 80],
  [20, 115],
  [25, 155],
  [30, 200],
  [35, 250],
  [40, 305],
  [45, 360],
  [50, 425],
  [55, 495],
  [60, 570],
  [65, 645],
  [70, 730],
  [75, 820],
];

/** Longitudinal buffer in feet at a speed, from the table's row for the same or the next higher speed; its last row beyond 75 mph. */
export function bufferFt(speedMph: number): number {
  const row = BUFFER_FT.find(([mph]) => mph >= speedMph - 0.5) ?? BUFFER_FT[BUFFER_FT.length - 1]!;
  return row[1];
}

/** Faster city streets count as high speed. The manual leaves the limit to the agency; 30 mph is our policy. */
const LOW_SPEED_MPH = 30;

/** Spacing in feet of advance warning signs, nearest to the work first (MUTCD Table 6B-1). */
export function signSpacingFt(roadClass: RoadClass | null, speedMph: number): readonly [number, number, number] {
  if (roadClass === "freeway") return [1000, 1500, 2640];
  if (roadClass === "rural-two-lane") return [500, 500, 500];
  return speedMph <= LOW_SPEED_MPH + 0.5 ? [100, 100, 100] : [350, 350, 350];
}
