import type { ShapeKind } from "../../map/zoning/draw-shape.ts";
import type { Drawing } from "../../map/zoning/drawing.ts";

/** The kind of shape that a drawing needs; null while nothing is drawn. */
export const shapeFor = (drawing: Drawing | null): ShapeKind | null =>
  drawing === null ? null : drawing.purpose.for === "split" ? "line" : "outline";
