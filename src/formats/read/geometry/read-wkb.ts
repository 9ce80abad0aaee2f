import type { Geometry, Position } from "geojson";
import { GeometryError, type ReadGeometry } from "./geometry-fault.ts";

/** A geometry in well-known binary, with the SRID of its extended form; null where it names none. */
export type WkbGeometry = Extract<ReadGeometry, { geometry: Geometry }> & { readonly srid: number | null };

/** Deepest nesting of collections; our policy. */
const MAX_NESTING = 20;

const CURVE_KINDS: ReadonlyMap<number, string> = new Map([
  [8, "CircularString"],
  [9, "CompoundCurve"],
  [10, "CurvePolygon"],
  [11, "MultiCurve"],
  [12, "MultiSurface"],
  [15, "PolyhedralSurface"],
  [16, "TIN"],
  [17, "Triangle"],
]);

/**
 * The geometry in well-known binary (OGC 06-103r4 section 8, ISO 13249-3, and the extended form with flags and SRID). Heights are kept,
 * measures left out. A MultiCurve of straight lines and a MultiSurface of plain polygons become their GeoJSON kinds.
 *
 * Throws GeometryError for curves, an empty point and unknown kinds, RangeError past the end of the bytes. Every count is checked
 * against the bytes left before anything is made of it.
 */
export function readWkb(bytes: Uint8Array): WkbGeometry {
  const cursor = new WkbCursor(bytes);
  const geometry = cursor.geometry(0);
  return { geometry, vertices: cursor.vertices, hadMeasures: cursor.hadMeasures, srid: cursor.srid };
}

class WkbCursor {
  vertices = 0;
  hadMeasures = false;
  srid: number | null = null;
  readonly #view: DataView;
  #at = 0;
  #isLittle = true;
  #hasZ = false;
  #hasM = false;

  constructor(bytes: Uint8Array) {
    this.#view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  }

  geometry(nesting: number): Geometry {
    if (nesting > MAX_NESTING) throw new GeometryError(`The geometry is nested more than ${MAX_NESTING} deep.`);
    const kind = this.#header();
    switch (kind) {
      case 1:
        return { type: "Point", coordinates: this.#point() };
      case 2:
        return { type: "LineString", coordinates: this.#positions() };
      case 3:
        return { type: "Polygon", coordinates: this.#rings() };
      case 4:
        return { type: "MultiPoint", coordinates: this.#parts(nesting, "Point") as Position[] };
      case 5:
      case 11:
        return { type: "MultiLineString", coordinates: this.#parts(nesting, "LineString") as Position[][] };
      case 6:
      case 12:
        return { type: "MultiPolygon", coordinates: this.#parts(nesting, "Polygon") as Position[][][] };
      case 7:
        return { type: "GeometryCollection", geometries: this.#children(nesting) };
      default: {
        const name = CURVE_KINDS.get(kind);
        throw new GeometryError(
          name === undefined
            ? `The geometry's kind ${kind} is not known.`
            : `A ${name} cannot be read, only straight lines.`,
        );
      }
    }
  }

  /** Byte order, kind and SRID; gives the kind without its flags. */
  #header(): number {
    this.#isLittle = this.#view.getUint8(this.#at) !== 0;
    const code = this.#view.getUint32(this.#at + 1, this.#isLittle);
    this.#at += 5;
    const low = code & 0x0fffffff;
    const iso = Math.floor(low / 1000);
    if (iso > 3) throw new GeometryError(`The geometry's kind ${low} is not known.`);
    this.#hasZ = (code & 0x80000000) !== 0 || iso === 1 || iso === 3;
    this.#hasM = (code & 0x40000000) !== 0 || iso === 2 || iso === 3;
    if (this.#hasM) this.hadMeasures = true;
    if ((code & 0x20000000) !== 0) {
      this.srid = this.#view.getInt32(this.#at, this.#isLittle);
      this.#at += 4;
    }
    return low % 1000;
  }

  #point(): Position {
    const position = this.#position();
    if (Number.isNaN(position[0]) || Number.isNaN(position[1])) throw new GeometryError("The point is empty.");
    return position;
  }

  #position(): Position {
    const x = this.#view.getFloat64(this.#at, this.#isLittle);
    const y = this.#view.getFloat64(this.#at + 8, this.#isLittle);
    const z = this.#hasZ ? this.#view.getFloat64(this.#at + 16, this.#isLittle) : Number.NaN;
    this.#at += this.#positionBytes();
    this.vertices += 1;
    return Number.isFinite(z) ? [x, y, z] : [x, y];
  }

  #positionBytes = (): number => 16 + (this.#hasZ ? 8 : 0) + (this.#hasM ? 8 : 0);

  #positions(): Position[] {
    const count = this.#count(this.#positionBytes());
    const positions: Position[] = [];
    for (let index = 0; index < count; index += 1) positions.push(this.#position());
    return positions;
  }

  #rings(): Position[][] {
    const count = this.#count(4);
    const rings: Position[][] = [];
    for (let index = 0; index < count; index += 1) rings.push(this.#positions());
    return rings;
  }

  #parts(nesting: number, kind: "Point" | "LineString" | "Polygon"): unknown[] {
    return this.#children(nesting).map((child) => {
      if (child.type === kind) return child.coordinates;
      throw new GeometryError(`A part of the geometry is a ${child.type} where a ${kind} belongs.`);
    });
  }

  #children(nesting: number): Geometry[] {
    const count = this.#count(9);
    const children: Geometry[] = [];
    for (let index = 0; index < count; index += 1) children.push(this.geometry(nesting + 1));
    return children;
  }

  /** A count of things that take at least `bytesEach`. */
  #count(bytesEach: number): number {
    const count = this.#view.getUint32(this.#at, this.#isLittle);
    this.#at += 4;
    if (count * bytesEach > this.#view.byteLength - this.#at)
      throw new RangeError("Count past the end of the geometry");
    return count;
  }
}

/** Name of an EPSG system by SRID; null for none and for longitude and latitude. */
export const sridName = (srid: number | null): string | null =>
  srid === null || srid <= 0 || srid === 4326 ? null : `EPSG:${srid}`;
