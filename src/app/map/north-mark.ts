import type { IControl, Map as MapLibreMap } from "maplibre-gl";

const SVG = "http://www.w3.org/2000/svg";

/** The drawing's north arrow; it turns where the map does. */
export class NorthMark implements IControl {
  private element: HTMLElement | null = null;
  private picture: SVGElement | null = null;
  private map: MapLibreMap | null = null;

  onAdd(map: MapLibreMap): HTMLElement {
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
    this.picture = picture;
    this.map = map;
    map.on("rotate", this.onRotate);
    return element;
  }

  onRemove(): void {
    this.map?.off("rotate", this.onRotate);
    this.element?.remove();
    this.element = null;
    this.picture = null;
    this.map = null;
  }

  private readonly onRotate = () => {
    const bearing = Math.round(this.map?.getBearing() ?? 0);
    this.picture?.setAttribute("transform", `rotate(${-bearing})`);
    const where = bearing === 0 ? "up" : `${Math.abs(bearing)} degrees to the ${bearing > 0 ? "left" : "right"} of up`;
    this.element?.setAttribute("aria-label", `North is ${where}`);
  };
}
