import type { Placed } from "./fit-places.ts";

/** The southwest and northeast corners of a box in degrees, for a map to show all of it. */
export const boxCorners = ([west, south, east, north]: readonly [number, number, number, number]): Placed[] => [
  { lonDeg: west, latDeg: south },
  { lonDeg: east, latDeg: north },
];
