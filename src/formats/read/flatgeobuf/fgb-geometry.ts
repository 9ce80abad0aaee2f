import type { Geometry, Position } from "geojson";
import { GeometryError } from "../geometry/geometry-fault.ts";
import type { FlatTable } from "./flat-table.ts";

const MAX_NESTING = 20;
/** Kinds of header.fbs that GeoJSON does not have. */
const CURVES: ReadonlyMap<number, string> = new Map([
  [8, "CircularString"],
  [9, "CompoundCurve"],
  [10, "CurvePolygon"],
  [11, "MultiCurve"],
  [12, "MultiSurface"],
  [13, "Curve"],
  [14, "Surface"],
  [15, "PolyhedralSurface"],
  [16, "TIN"],
  [17, "Triangle"],
]);

/** Positions and parts that may still be read; parts of a message can point at one another, so that few bytes could mean endless ones. */
export interface GeometryBudget {
  left: number;
}

/**
 * The geometry of a FlatGeobuf feature (feature.fbs): heights kept, measures left out. Throws GeometryError for curves, empty ones and
 * ones past the budget.
 */
export function fgbGeometry(table: FlatTable, headerType: number, budget: GeometryBudget, nesting = 0): Geometry {
  if (nesting > MAX_NESTING) throw new GeometryError(`The geometry is nested more than ${MAX_NESTING} deep.`);
  const type = headerType === 0 ? table.uint8(6) : headerType;
  switch (type) {
    case 1: {
      const [point] = positions(table, budget);
      if (point === undefined || Number.isNaN(point[0])) throw new GeometryError("The point is empty.");
      return { type: "Point", coordinates: point };
    }
    case 2:
      return { type: "LineString", coordinates: positions(table, budget) };
    case 3:
      return { type: "Polygon", coordinates: byEnds(table, budget) };
    case 4:
      return { type: "MultiPoint", coordinates: positions(table, budget) };
    case 5:
      return { type: "MultiLineString", coordinates: byEnds(table, budget) };
    case 6:
      return { type: "MultiPolygon", coordinates: parts(table, budget).map((part) => byEnds(part, budget)) };
    case 7:
      return {
        type: "GeometryCollection",
        geometries: parts(table, budget).map((part) => fgbGeometry(part, 0, budget, nesting + 1)),
      };
    default: {
      const name = CURVES.get(type);
      throw new GeometryError(
        name === undefined
          ? `The geometry's kind ${type} is not known.`
          : `A ${name} cannot be read, only straight lines.`,
      );
    }
  }
}

function positions(table: FlatTable, budget: GeometryBudget): Position[] {
  const xy = table.doubles(1) ?? new Float64Array();
  spend(budget, xy.length / 2);
  const z = table.doubles(2);
  const hasZ = z !== null && z.length === xy.length / 2;
  return Array.from({ length: xy.length >> 1 }, (_, index) => {
    const [x, y] = [xy[index * 2]!, xy[index * 2 + 1]!];
    return hasZ && Number.isFinite(z[index]) ? [x, y, z[index]!] : [x, y];
  });
}

/** Positions cut into rings or lines at the ends the feature names; one piece where it names none. */
function byEnds(table: FlatTable, budget: GeometryBudget): Position[][] {
  const all = positions(table, budget);
  const ends = table.uint32s(0);
  if (ends === null || ends.length === 0) return [all];
  let start = 0;
  return ends.map((end) => {
    if (end < start || end > all.length) throw new RangeError("Ends of a geometry out of order");
    const piece = all.slice(start, end);
    start = end;
    return piece;
  });
}

function parts(table: FlatTable, budget: GeometryBudget): FlatTable[] {
  const tables = table.tables(7);
  spend(budget, tables.length);
  return tables;
}

function spend(budget: GeometryBudget, count: number): void {
  budget.left -= count;
  if (budget.left < 0) throw new GeometryError("The geometry has more parts than its bytes can hold.");
}
