import { Map as MapLibreMap, NavigationControl, ScaleControl, setWorkerUrl } from "maplibre-gl";
import workerUrl from "maplibre-gl/dist/maplibre-gl-worker.mjs?worker&url";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import { TOKENS } from "../../map/tokens.ts";
import type { PageTheme } from "../theme.ts";
import { groundStyle } from "./ground-style.ts";
import { NorthMark } from "./north-mark.ts";

setWorkerUrl(workerUrl);

/** A map of the page with what frames a drawing: north, scale and the zoom buttons. */
export class PageMap {
  readonly map: MapLibreMap;
  readonly #scale: ScaleControl;
  readonly #isBare: boolean;

  /** A map in an element, on the base map of that address or, with null, on bare paper. Throws Error where the browser has no WebGL. */
  constructor(container: HTMLElement, basemap: string | null, theme: PageTheme, units: DisplayUnits) {
    this.#isBare = basemap === null;
    this.map = new MapLibreMap({
      container,
      style: basemap ?? groundStyle(theme),
      attributionControl: basemap === null ? false : { compact: true },
      // The plan's own mark of what moves is enough; a fade would only delay the drawing.
      fadeDuration: 0,
      maxPitch: 0,
      dragRotate: false,
      locale: { "Map.Title": "Map of the plan" },
    });
    this.map.touchZoomRotate.disableRotation();
    this.#scale = new ScaleControl({ maxWidth: 120, unit: scaleUnit(units) });
    this.map.addControl(new NorthMark(), "bottom-left");
    this.map.addControl(this.#scale, "bottom-left");
    this.map.addControl(new NavigationControl({ showCompass: false }), "bottom-right");
  }

  setUnits(units: DisplayUnits): void {
    this.#scale.setUnit(scaleUnit(units));
  }

  /** Colors the bare paper; a base map keeps its own colors. */
  setTheme(theme: PageTheme): void {
    if (this.#isBare) this.map.setPaintProperty("ground", "background-color", TOKENS.themes[theme].ground);
  }
}

const scaleUnit = (units: DisplayUnits) => (units === "us" ? "imperial" : "metric");
