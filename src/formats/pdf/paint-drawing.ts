import type { Drawing, Shape, Tone } from "../../core/crown/drawing.ts";
import { HATCH_PITCH_MM, HATCH_WEIGHT_MM, PRINT_TONES, type ToneColors } from "../../core/crown/drawing-to-svg.ts";
import type { TextSetter } from "./text-setter.ts";

/**
 * Paints a drawing with its upper left corner at x, y, where one unit of the document is a millimeter. Nothing is painted outside
 * the drawing's own rectangle.
 */
export function paintDrawing(
  doc: PDFKit.PDFDocument,
  text: TextSetter,
  drawing: Drawing,
  x: number,
  y: number,
  tones: ToneColors = PRINT_TONES,
): void {
  doc.save();
  doc.translate(x, y);
  doc.rect(0, 0, drawing.widthMm, drawing.heightMm).clip();
  for (const shape of drawing.shapes) {
    if (shape.type === "text") paintText(doc, text, shape, tones);
    else paintPath(doc, shape, tones);
  }
  doc.restore();
}

function paintText(
  doc: PDFKit.PDFDocument,
  text: TextSetter,
  shape: Extract<Shape, { type: "text" }>,
  tones: ToneColors,
): void {
  doc.save();
  doc.translate(shape.xMm, shape.yMm);
  if (shape.rotateDeg !== undefined) doc.rotate(shape.rotateDeg);
  const color = colorOf(shape.tone, tones) ?? tones.ink;
  text.line(
    shape.text,
    0,
    0,
    { sizeMm: shape.sizeMm, weight: shape.bold === true ? "semibold" : "regular", color },
    shape.anchor,
  );
  doc.restore();
}

function paintPath(doc: PDFKit.PDFDocument, shape: Extract<Shape, { type: "path" }>, tones: ToneColors): void {
  const fill = colorOf(shape.fill, tones);
  if (fill !== null) doc.path(shape.d).fillColor(fill).fill();
  if (shape.hatched === true) hatch(doc, shape.d, tones.ink);
  const { stroke } = shape;
  const color = stroke === undefined ? null : colorOf(stroke.tone, tones);
  if (stroke === undefined || color === null) return;
  doc.lineWidth(stroke.widthMm).strokeColor(color).lineJoin("round").lineCap("butt");
  // The declared type knows one dash length only; pdfkit takes a list.
  if (stroke.dashMm !== undefined) doc.dash(stroke.dashMm as unknown as number, {});
  doc.path(shape.d).stroke();
  if (stroke.dashMm !== undefined) doc.undash();
}

/** Lines at 45 degrees, falling to the left as in the SVG pattern, clipped to the path. */
function hatch(doc: PDFKit.PDFDocument, d: string, ink: string): void {
  const [left, top, right, bottom] = boundsOf(d);
  const step = HATCH_PITCH_MM * Math.SQRT2;
  doc.save();
  doc.path(d).clip();
  doc.lineWidth(HATCH_WEIGHT_MM).strokeColor(ink);
  for (let sum = Math.floor((left + top) / step) * step; sum <= right + bottom; sum += step) {
    doc.moveTo(sum - top, top).lineTo(sum - bottom, bottom);
  }
  doc.stroke();
  doc.restore();
}

/** Left, top, right and bottom of a path's points, handles included. */
function boundsOf(d: string): readonly [number, number, number, number] {
  const numbers = (d.match(/-?\d+(?:\.\d+)?/g) ?? []).map(Number);
  let left = Number.POSITIVE_INFINITY;
  let top = Number.POSITIVE_INFINITY;
  let right = Number.NEGATIVE_INFINITY;
  let bottom = Number.NEGATIVE_INFINITY;
  for (let at = 0; at + 1 < numbers.length; at += 2) {
    left = Math.min(left, numbers[at]!);
    right = Math.max(right, numbers[at]!);
    top = Math.min(top, numbers[at + 1]!);
    bottom = Math.max(bottom, numbers[at + 1]!);
  }
  return [left, top, right, bottom];
}

const colorOf = (tone: Tone, tones: ToneColors): string | null => (tone === "none" ? null : tones[tone]);
