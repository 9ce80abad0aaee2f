import type { Geometry } from "geojson";
import { boxOf, positionsOf } from "./geometry-box.ts";
import { wkb } from "./wkb.ts";

const SRS_ID = 4326;
const LITTLE_ENDIAN = 0b1;
const WITH_BOX = 0b10;
const EMPTY = 0b1_0000;

/** A geometry as a GeoPackage blob: header with its box (none for a point), then well-known binary (OGC 12-128r17 section 2.1.3). */
export function geoPackageGeometry(geometry: Geometry): Uint8Array {
  const box = geometry.type === "Point" ? null : boxOf(geometry);
  const body = wkb(geometry);
  const headLength = box === null ? 8 : 40;
  const bytes = new Uint8Array(headLength + body.length);
  const view = new DataView(bytes.buffer);
  bytes[0] = 0x47;
  bytes[1] = 0x50;
  bytes[3] = LITTLE_ENDIAN | (box === null ? 0 : WITH_BOX) | (positionsOf(geometry).length === 0 ? EMPTY : 0);
  view.setInt32(4, SRS_ID, true);
  if (box !== null) {
    const [west, south, east, north] = box;
    [west, east, south, north].forEach((value, at) => {
      view.setFloat64(8 + at * 8, value, true);
    });
  }
  bytes.set(body, headLength);
  return bytes;
}
