import type { Position } from "geojson";
import { GeometryError, noGeometry, type ReadGeometry, readGeometrySafely } from "../geometry/geometry-fault.ts";
import { damaged } from "../unreadable-file.ts";
import { polygonOfRings } from "./rings.ts";

/** The shapes of a .shp file, one after another. */
export interface ShapeReader {
  /** The next shape, or null at the end. */
  next(): ReadGeometry | null;
  /** Shapes read so far. */
  readonly count: number;
  isCutShort(): boolean;
}

const FILE_CODE = 9994;
const HEADER_BYTES = 100;
/** A height below this is none (ESRI Shapefile Technical Description, page 2: smaller than -10^38). */
const NO_DATA = -1e38;

/** Reads a .shp file record by record. Throws UnreadableError when it is none. */
export function shapeReader(bytes: Uint8Array): ShapeReader {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (view.byteLength < HEADER_BYTES || view.getInt32(0) !== FILE_CODE)
    throw damaged(".shp file", "it does not begin as one");
  let at = HEADER_BYTES;
  let count = 0;
  let cutShort = false;
  return {
    get count() {
      return count;
    },
    isCutShort: () => cutShort,
    next() {
      if (at + 8 > view.byteLength) {
        cutShort ||= at < view.byteLength;
        return null;
      }
      const length = view.getInt32(at + 4) * 2;
      const start = at + 8;
      if (length < 4 || start + length > view.byteLength) {
        cutShort = true;
        at = view.byteLength;
        return null;
      }
      at = start + length;
      count += 1;
      const record = new DataView(view.buffer, view.byteOffset + start, length);
      return readGeometrySafely(() => readShape(record));
    },
  };
}

function readShape(record: DataView): ReadGeometry {
  const type = record.getInt32(0, true);
  const hasZ = type > 10 && type < 20;
  const hadMeasures = type > 20 && type < 30;
  switch (type) {
    case 0:
      return noGeometry();
    case 1:
    case 11:
    case 21: {
      const [x, y] = [record.getFloat64(4, true), record.getFloat64(12, true)];
      const z = hasZ ? record.getFloat64(20, true) : Number.NaN;
      return { geometry: { type: "Point", coordinates: position(x, y, z) }, vertices: 1, hadMeasures };
    }
    case 8:
    case 18:
    case 28: {
      const positions = readPositions(record, countAt(record, 36, 16), 40, hasZ);
      return { geometry: { type: "MultiPoint", coordinates: positions }, vertices: positions.length, hadMeasures };
    }
    case 3:
    case 13:
    case 23: {
      const parts = readParts(record, hasZ);
      const vertices = parts.reduce((sum, part) => sum + part.length, 0);
      if (parts.length === 0) return noGeometry();
      return parts.length === 1
        ? { geometry: { type: "LineString", coordinates: parts[0]! }, vertices, hadMeasures }
        : { geometry: { type: "MultiLineString", coordinates: parts }, vertices, hadMeasures };
    }
    case 5:
    case 15:
    case 25: {
      const parts = readParts(record, hasZ);
      if (parts.length === 0) return noGeometry();
      const vertices = parts.reduce((sum, part) => sum + part.length, 0);
      return { geometry: polygonOfRings(parts), vertices, hadMeasures };
    }
    default:
      throw new GeometryError(
        type === 31 ? "A multipatch (3-D surface) cannot be read." : `The shape's type ${type} is not known.`,
      );
  }
}

/** Parts of a polyline or polygon: bounding box, counts at 36 and 40, first positions of the parts, positions, then heights. */
function readParts(record: DataView, hasZ: boolean): Position[][] {
  const partCount = countAt(record, 36, 4);
  const pointCount = countAt(record, 40, 16);
  const pointsAt = 44 + partCount * 4;
  const positions = readPositions(record, pointCount, pointsAt, hasZ);
  const parts: Position[][] = [];
  for (let part = 0; part < partCount; part += 1) {
    const start = record.getInt32(44 + part * 4, true);
    const end = part + 1 < partCount ? record.getInt32(48 + part * 4, true) : pointCount;
    if (start < 0 || end < start || end > pointCount) throw new RangeError("Parts of a shape out of order");
    if (end > start) parts.push(positions.slice(start, end));
  }
  return parts;
}

function readPositions(record: DataView, count: number, pointsAt: number, hasZ: boolean): Position[] {
  const heightsAt = pointsAt + count * 16 + 16;
  const canHaveZ = hasZ && heightsAt + count * 8 <= record.byteLength;
  const positions: Position[] = [];
  for (let index = 0; index < count; index += 1) {
    const at = pointsAt + index * 16;
    const z = canHaveZ ? record.getFloat64(heightsAt + index * 8, true) : Number.NaN;
    positions.push(position(record.getFloat64(at, true), record.getFloat64(at + 8, true), z));
  }
  return positions;
}

function countAt(record: DataView, at: number, bytesEach: number): number {
  const count = record.getInt32(at, true);
  if (count < 0 || count * bytesEach > record.byteLength) throw new RangeError("Count past the end of the shape");
  return count;
}

const position = (x: number, y: number, z: number): Position =>
  Number.isFinite(z) && z > NO_DATA ? [x, y, z] : [x, y];
