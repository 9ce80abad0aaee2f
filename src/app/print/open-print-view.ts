import type { DisplayUnits } from "../../core/units/format-length.ts";
import { activeElement } from "../frame/active-element.ts";
import type { MapLook } from "../map/map-look.ts";
import type { PrintWords } from "./print-view.ts";
import "./print-view.ts";

/** Lays the sheet over the page until the reader closes it, and then gives the focus back to where it was. */
export function openPrintView(host: HTMLElement, look: MapLook, words: PrintWords, units: DisplayUnits): void {
  if (host.querySelector("print-view") !== null) return;
  const from = activeElement();
  const view = document.createElement("print-view");
  Object.assign(view, { look, words, units });
  const others = [...host.children].filter((child) => child instanceof HTMLElement && !child.inert) as HTMLElement[];
  for (const other of others) other.inert = true;
  view.addEventListener("print-close", () => {
    for (const other of others) other.inert = false;
    view.remove();
    from?.focus();
  });
  host.append(view);
}
