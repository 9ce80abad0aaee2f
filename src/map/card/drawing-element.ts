import type { Drawing } from "../../core/crown/drawing.ts";
import { drawingToSvg } from "../../core/crown/drawing-to-svg.ts";

/** The tones of drawings as the plugin's own custom properties, so that a drawing follows the theme around it. */
const TONES = {
  ink: "var(--boughline-ink)",
  quiet: "var(--boughline-quiet)",
  crown: "var(--boughline-drawing-crown)",
  removed: "var(--boughline-drawing-removed)",
  clearance: "var(--boughline-drawing-clearance)",
  ground: "var(--boughline-drawing-ground)",
  paper: "var(--boughline-paper)",
} as const;

/** A drawing as an SVG element of this document; as wide as the place it is put into. */
export function drawingElement(drawing: Drawing, idPrefix: string, title: string): SVGElement {
  const markup = drawingToSvg(drawing, { idPrefix, title, tones: TONES });
  const parsed = new DOMParser().parseFromString(markup, "image/svg+xml");
  const element = document.importNode(parsed.documentElement, true) as unknown as SVGElement;
  element.removeAttribute("width");
  element.removeAttribute("height");
  return element;
}
