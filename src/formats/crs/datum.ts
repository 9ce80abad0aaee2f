/**
 * What a coordinate system's longitudes and latitudes are measured from, and how they were taken to WGS 84.
 *
 * `exact`: it is WGS 84. `same`: taken for WGS 84 without a shift, as they lie a meter or two apart. `shifted`: by published parameters
 * without a grid file. `unknown`: no shift is known here, so that positions may be off by hundreds of meters.
 */
export interface Datum {
  /** For example `North American Datum 1983`. */
  readonly name: string;
  readonly kind: "exact" | "same" | "shifted" | "unknown";
  /** How far positions can be off WGS 84, in meters, as published for the shift; null where nothing is published. */
  readonly errorM: number | null;
  /** Where shift and figure come from, for example `EPSG:1314`; null for none. */
  readonly source: string | null;
}

export const WGS84_DATUM: Datum = { name: "WGS 84", kind: "exact", errorM: null, source: null };

/**
 * Half axis and flattening of ellipsoids centered on the whole earth: GRS 80 and WGS 84 agree to 0.1 mm in the half axis and to seven
 * figures in the flattening. A datum on them lies within a meter or two of WGS 84; common practice, no source.
 */
export const isWorldEllipsoid = (halfAxisM: number, inverseFlattening: number): boolean =>
  Math.abs(halfAxisM - 6_378_137) < 0.5 && Math.abs(inverseFlattening - 298.2572) < 0.001;
