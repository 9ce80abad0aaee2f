/** Half of the 90 % interval of a crown base that a crew measured, meters; the same as of one in an inventory. Our policy. */
export const MEASURED_BY_CREW_ERROR_M = 0.3;

/** A live crown keeps at least this depth in meters: what was measured nearer to the top is taken down to it. */
export const LEAST_CROWN_DEPTH_M = 0.3;
