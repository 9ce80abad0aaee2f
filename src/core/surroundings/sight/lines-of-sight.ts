/**
 * The lines of sight of an area, one for each position of a vehicle along a lane. Each runs from the vehicle to a fixed point (a waiting driver's
 * eye, the face of a sign), or to the point of the same lane that lies `aheadM` farther on.
 */
export interface LinesOfSight {
  /** The lane in longitude and latitude, from the end that is near to the fixed point, or against traffic's start; at least two positions. */
  readonly lane: readonly (readonly [lonDeg: number, latDeg: number])[];
  /** Vehicles are looked at from the lane's start up to this length along it, meters. */
  readonly lengthM: number;
  readonly fixed: readonly [lonDeg: number, latDeg: number] | null;
  /** 0 where the other end is fixed. */
  readonly aheadM: number;
  /** Height above the ground of the end that moves along the lane. */
  readonly laneEndM: number;
  /** Heights between which the other end must be seen: its lower and upper edge. Shares are told of the line to its middle. */
  readonly otherEndM: readonly [lowM: number, highM: number];
}
