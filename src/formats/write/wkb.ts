import type { Geometry, Position } from "geojson";
import { hasZ } from "./geometry-box.ts";

/** Codes of OGC 06-103r4 (Simple Features) section 8.2.8; a geometry with heights has 1000 more. */
const CODES: Readonly<Record<Geometry["type"], number>> = {
  Point: 1,
  LineString: 2,
  Polygon: 3,
  MultiPoint: 4,
  MultiLineString: 5,
  MultiPolygon: 6,
  GeometryCollection: 7,
};

/**
 * A geometry as ISO well-known binary, little-endian. Heights are kept where every position has one; further numbers of a position are
 * left out.
 */
export function wkb(geometry: Geometry): Uint8Array {
  const bytes = new Writer();
  writeGeometry(bytes, geometry, hasZ(geometry));
  return bytes.done();
}

class Writer {
  #bytes = new Uint8Array(128);
  #view = new DataView(this.#bytes.buffer);
  #length = 0;

  head(code: number): void {
    this.#grow(5);
    this.#bytes[this.#length] = 1;
    this.#view.setUint32(this.#length + 1, code, true);
    this.#length += 5;
  }

  count(value: number): void {
    this.#grow(4);
    this.#view.setUint32(this.#length, value, true);
    this.#length += 4;
  }

  position(position: Position, size: number): void {
    this.#grow(size * 8);
    for (let at = 0; at < size; at += 1) {
      this.#view.setFloat64(this.#length, position[at] ?? Number.NaN, true);
      this.#length += 8;
    }
  }

  done(): Uint8Array {
    return this.#bytes.slice(0, this.#length);
  }

  #grow(more: number): void {
    if (this.#length + more <= this.#bytes.length) return;
    const larger = new Uint8Array(Math.max(this.#bytes.length * 2, this.#length + more));
    larger.set(this.#bytes);
    this.#bytes = larger;
    this.#view = new DataView(larger.buffer);
  }
}

function writeGeometry(bytes: Writer, geometry: Geometry, isWithZ: boolean): void {
  const size = isWithZ ? 3 : 2;
  const positions = (list: readonly Position[]): void => {
    bytes.count(list.length);
    for (const position of list) bytes.position(position, size);
  };
  const rings = (list: readonly (readonly Position[])[]): void => {
    bytes.count(list.length);
    for (const ring of list) positions(ring);
  };
  const parts = (list: readonly Geometry[]): void => {
    bytes.count(list.length);
    for (const part of list) writeGeometry(bytes, part, isWithZ);
  };
  bytes.head(CODES[geometry.type] + (isWithZ ? 1000 : 0));
  switch (geometry.type) {
    case "Point":
      bytes.position(geometry.coordinates, size);
      break;
    case "LineString":
      positions(geometry.coordinates);
      break;
    case "Polygon":
      rings(geometry.coordinates);
      break;
    case "MultiPoint":
      parts(geometry.coordinates.map((coordinates) => ({ type: "Point", coordinates })));
      break;
    case "MultiLineString":
      parts(geometry.coordinates.map((coordinates) => ({ type: "LineString", coordinates })));
      break;
    case "MultiPolygon":
      parts(geometry.coordinates.map((coordinates) => ({ type: "Polygon", coordinates })));
      break;
    case "GeometryCollection":
      parts(geometry.geometries);
      break;
  }
}
