import type { PhoneStop } from "../../core/packet/phone/phone-page.ts";
import type { Outcome } from "../../core/plan/completion/completion.ts";
import { shape } from "../element.ts";
import { badgeShapes } from "../views/number-badge.ts";
import { type Camera, inWindow, type WindowPx } from "./camera.ts";
import { streetLabel } from "./street-label.ts";
import type { StreetLine } from "./world.ts";

export interface StopSpot {
  readonly stop: PhoneStop;
  readonly xM: number;
  readonly yM: number;
}

export interface OverlayScene {
  readonly camera: Camera;
  readonly size: WindowPx;
  readonly spots: readonly StopSpot[];
  readonly streets: readonly StreetLine[];
  readonly outcomeOf: (visitId: string) => Outcome | "";
  /** Number of the chosen tree; null for none. */
  readonly chosen: number | null;
  readonly here: { readonly xM: number; readonly yM: number; readonly accuracyM: number } | null;
  readonly added: readonly { readonly xM: number; readonly yM: number; readonly kind: "tree" | "hazard" }[];
  readonly isPicking: boolean;
}

/** Room in pixels that a numbered badge needs to the next one. */
const BADGE_PX = 30;
/** Room between a street's name and the middle of a badge. */
const NAME_ROOM_PX = 24;
const LETTER_PX = 7;

/** What keeps its size while the map is zoomed: street names, numbers, the device's place, what was added, the cross. */
export function overlayShapes(scene: OverlayScene): SVGElement[] {
  const { camera, size } = scene;
  const at = (xM: number, yM: number) => inWindow(camera, size, xM, yM);
  const shapes: SVGElement[] = [];
  const places = scene.spots.map(({ xM, yM }) => at(xM, yM));
  const isFree = (xM: number, yM: number) => {
    const [x, y] = at(xM, yM);
    if (x < 8 || y < 48 || x > size.widthPx - 8 || y > size.heightPx - 70) return false;
    return places.every(([px, py]) => Math.hypot(px - x, py - y) > NAME_ROOM_PX);
  };
  for (const street of scene.streets) {
    const label = streetLabel(street, (street.name.length * LETTER_PX + 8) / camera.pxPerM, isFree);
    if (label === null) continue;
    const [x, y] = at(label.xM, label.yM);
    const turn = `translate(${x} ${y}) rotate(${label.angleDeg})`;
    shapes.push(shape("text", { transform: turn, y: 4, "text-anchor": "middle", class: "street" }, street.name));
  }
  if (scene.here !== null) {
    const [x, y] = at(scene.here.xM, scene.here.yM);
    shapes.push(shape("circle", { cx: x, cy: y, r: scene.here.accuracyM * camera.pxPerM, class: "accuracy" }));
    shapes.push(shape("circle", { cx: x, cy: y, r: 8, class: "here" }));
  }
  shapes.push(...badges(scene));
  for (const { xM, yM, kind } of scene.added) {
    const [x, y] = at(xM, yM);
    const d = kind === "hazard" ? "M0 -11L11 9L-11 9Z" : "M-8 -8L8 -8L8 8L-8 8Z";
    shapes.push(shape("path", { d, transform: `translate(${x} ${y})`, class: `added-${kind}` }));
  }
  if (scene.isPicking) {
    const [x, y] = [size.widthPx / 2, size.heightPx / 2];
    const d = `M${x - 22} ${y}L${x + 22} ${y}M${x} ${y - 22}L${x} ${y + 22}`;
    shapes.push(shape("path", { d, class: "cross-casing" }), shape("path", { d, class: "cross" }));
  }
  return shapes;
}

/** Numbered badges in order of work; where there is no room for one it is a dot. The chosen tree's is never left out. */
function badges({ camera, size, spots, outcomeOf, chosen }: OverlayScene): SVGElement[] {
  const taken: (readonly [number, number])[] = [];
  const dots: SVGElement[] = [];
  const numbers: SVGElement[] = [];
  const first = spots.filter(({ stop }) => stop.number === chosen);
  for (const { stop, xM, yM } of [...first, ...spots.filter((spot) => !first.includes(spot))]) {
    const [x, y] = inWindow(camera, size, xM, yM);
    if (x < -20 || y < -20 || x > size.widthPx + 20 || y > size.heightPx + 20) continue;
    const outcome = outcomeOf(stop.visitId);
    if (taken.some(([tx, ty]) => Math.hypot(x - tx, y - ty) < BADGE_PX)) {
      dots.push(shape("circle", { cx: x, cy: y, r: 5, class: "dot", "data-outcome": outcome || "open" }));
      continue;
    }
    taken.push([x, y]);
    const isChosen = stop.number === chosen;
    const badge = shape(
      "g",
      { class: "badge", transform: `translate(${x} ${y})`, "data-urgency": stop.urgency, "data-number": stop.number },
      isChosen ? shape("circle", { r: 21, class: "chosen-ring" }) : null,
      badgeShapes(stop.number, outcome),
    );
    numbers.unshift(badge);
  }
  return [...dots, ...numbers];
}
