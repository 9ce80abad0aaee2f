/** A point of a local plane in meters: east, north. */
export type PlanePoint = readonly [xM: number, yM: number];
