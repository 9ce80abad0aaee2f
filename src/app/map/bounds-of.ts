/** A place in degrees. */
export interface Placed {
  readonly lonDeg: number;
  readonly latDeg: number;
}

/** West, south, east and north of places in degrees; null for none. */
export function boundsOf(places: readonly Placed[]): [number, number, number, number] | null {
  let [west, south, east, north] = [
    Number.POSITIVE_INFINITY,
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
  ];
  for (const { lonDeg, latDeg } of places) {
    west = Math.min(west, lonDeg);
    south = Math.min(south, latDeg);
    east = Math.max(east, lonDeg);
    north = Math.max(north, latDeg);
  }
  return west <= east ? [west, south, east, north] : null;
}
