import type { Drawing } from "../../core/crown/drawing.ts";
import { drawingToSvg } from "../../core/crown/drawing-to-svg.ts";
import { element } from "../element.ts";

/** A drawing as a figure as wide as its place. The markup is parsed as SVG, in which the plan's texts are escaped. */
export function drawingFigure(drawing: Drawing, idPrefix: string, title: string): HTMLElement {
  const parsed = new DOMParser().parseFromString(drawingToSvg(drawing, { idPrefix, title }), "image/svg+xml");
  const svg = document.importNode(parsed.documentElement, true);
  svg.removeAttribute("width");
  svg.removeAttribute("height");
  return element("figure", {}, svg);
}
