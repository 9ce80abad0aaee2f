import { GeometryError, noGeometry, type ReadGeometry, readGeometrySafely } from "../geometry/geometry-fault.ts";
import { readWkb } from "../geometry/read-wkb.ts";

/** Bytes of the envelope by its indicator (OGC 12-128r18 table 5). */
const ENVELOPE_BYTES = [0, 32, 48, 48, 64] as const;

/** The geometry in a GeoPackage blob: its header (section 2.1.3), then well-known binary. */
export function gpkgGeometry(value: unknown): ReadGeometry {
  if (value === null || value === undefined) return noGeometry();
  return readGeometrySafely(() => {
    if (!(value instanceof Uint8Array) || value[0] !== 0x47 || value[1] !== 0x50) {
      throw new GeometryError("The geometry is no GeoPackage geometry.");
    }
    const flags = value[3]!;
    const envelope = ENVELOPE_BYTES[(flags >> 1) & 7];
    if (envelope === undefined || value.length < 8 + envelope)
      throw new GeometryError("The geometry's header is damaged.");
    if ((flags & 0x20) !== 0) throw new GeometryError("The geometry is of an extended kind that cannot be read.");
    if ((flags & 0x10) !== 0) throw new GeometryError("The geometry is empty.");
    return readWkb(value.subarray(8 + envelope));
  });
}
