import type { IControl } from "maplibre-gl";

const SVG = "http://www.w3.org/2000/svg";

/** The drawing's north arrow; the map never turns, so neither does the arrow. */
export class NorthMark implements IControl {
  private element: HTMLElement | null = null;

  onAdd(): HTMLElement {
    const element = document.createElement("div");
    element.className = "maplibregl-ctrl north-mark";
    element.setAttribute("role", "img");
    element.setAttribute("aria-label", "North is up");
    const picture = document.createElementNS(SVG, "svg");
    picture.setAttribute("viewBox", "0 0 18 34");
    picture.setAttribute("width", "18");
    picture.setAttribute("height", "34");
    const arrow = document.createElementNS(SVG, "path");
    // A plumb line with one half of its head filled, as surveyors draw it, over the letter.
    arrow.setAttribute("d", "M9 1v19M9 1l4.5 11L9 9.5z");
    const letter = document.createElementNS(SVG, "path");
    letter.setAttribute("d", "M5.5 33v-9l7 9v-9");
    letter.setAttribute("class", "letter");
    picture.append(arrow, letter);
    element.append(picture);
    this.element = element;
    return element;
  }

  onRemove(): void {
    this.element?.remove();
    this.element = null;
  }
}
