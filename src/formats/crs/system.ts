import { type Datum, WGS84_DATUM } from "./datum.ts";

/** A coordinate reference system that coordinates can come in. */
export interface CoordinateSystem {
  /** For example `EPSG:26910`, `OGC:CRS84` or the beginning of the definition itself. */
  readonly name: string;
  /** For people, for example `NAD83 / UTM zone 10N`; the name again where none is known. */
  readonly title: string;
  /** Longitude and latitude in degrees of an easting and northing; null where coordinates are longitude and latitude already. */
  readonly toLonLat: ((x: number, y: number) => [number, number]) | null;
  /** Whether coordinates are degrees; they still need `toLonLat` where the datum asks for a shift. */
  readonly isGeographic: boolean;
  readonly datum: Datum;
  /** West, south, east and north of the area it is meant for, degrees; null where that is not known. */
  readonly area: readonly [number, number, number, number] | null;
}

/** RFC 7946 section 4: longitude and latitude on WGS 84. */
export const WGS84: CoordinateSystem = {
  name: "OGC:CRS84",
  title: "WGS 84",
  toLonLat: null,
  isGeographic: true,
  datum: WGS84_DATUM,
  area: null,
};

/** Finds a coordinate system by its name or definition. Throws RangeError, with what to give instead, for one it does not know. */
export type FindSystem = (text: string) => CoordinateSystem;
