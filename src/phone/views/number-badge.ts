import type { Urgency } from "../../core/model/terms.ts";
import type { Outcome } from "../../core/plan/completion/completion.ts";
import { shape } from "../element.ts";

/** A tree's number in a disc ringed in its urgency's tone; full when done, half when partly, crossed out when not. */
export function numberBadge(number: number, outcome: Outcome | "", urgency: Urgency): SVGElement {
  return shape(
    "svg",
    { class: "badge", viewBox: "-18 -18 36 36", "aria-hidden": "true", "data-urgency": urgency },
    badgeShapes(number, outcome),
  );
}

/** The badge's shapes about the origin, 32 px across. */
export function badgeShapes(number: number, outcome: Outcome | ""): SVGElement[] {
  const shapes: SVGElement[] = [
    shape("circle", { r: 15.5, class: "ring" }),
    shape("circle", { r: 12.5, class: "disc" }),
  ];
  if (outcome === "done") shapes.push(shape("circle", { r: 12.5, class: "full" }));
  // The lower half, so that the number above it stays readable.
  if (outcome === "partly") shapes.push(shape("path", { d: "M-11.5 5A12.5 12.5 0 0 0 11.5 5Z", class: "full" }));
  shapes.push(
    shape(
      "text",
      { y: outcome === "partly" ? 2 : 5, "text-anchor": "middle", class: outcome === "done" ? "on-full" : "number" },
      String(number),
    ),
  );
  if (outcome === "not-done") shapes.push(shape("path", { d: "M-10.5 10.5L10.5 -10.5", class: "strike" }));
  return shapes;
}
