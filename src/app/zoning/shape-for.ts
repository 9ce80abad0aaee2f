import type { ShapeKind } from "./draw-shape.ts";
import type { Drawing } from "./zone-controller.ts";

/** The kind of shape that a drawing needs; null while nothing is drawn. */
export const shapeFor = (drawing: Drawing | null): ShapeKind | null =>
  drawing === null ? null : drawing.purpose.for === "split" ? "line" : "outline";
