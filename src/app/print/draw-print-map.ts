import { Map as MapLibreMap } from "maplibre-gl";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import { addBoughlineLayers } from "../../map/index.ts";
import { TOKENS } from "../../map/tokens.ts";
import type { MapLook } from "../map/map-look.ts";

/** A drawn map, and the scale it came out at. */
export interface PrintedMap {
  readonly picture: Blob;
  readonly latDeg: number;
  readonly zoom: number;
}

/** Dots to the CSS pixel: 288 to the inch, what an office printer resolves. */
const PIXEL_RATIO = 3;

/**
 * The map as it is looked at, drawn for black ink in a size of its own: the same middle, and no less of the ground from left to right. `signal` gives it up. Throws Error where the browser
 * cannot draw maps.
 */
export async function drawPrintMap(
  look: MapLook,
  size: { readonly widthPx: number; readonly heightPx: number },
  units: DisplayUnits,
  signal: AbortSignal,
): Promise<PrintedMap> {
  const stand = document.createElement("div");
  stand.inert = true;
  const { widthPx, heightPx } = size;
  // Beside the window: it must have a size, and nobody should see it.
  Object.assign(stand.style, { position: "fixed", left: "-9999px", width: `${widthPx}px`, height: `${heightPx}px` });
  document.body.append(stand);
  const { lonDeg, latDeg } = look.frame;
  const zoom = look.frame.zoom + Math.log2(widthPx / Math.max(look.widthPx, 1));
  const map = new MapLibreMap({
    container: stand,
    style: look.basemap ?? {
      version: 8,
      sources: {},
      layers: [{ id: "ground", type: "background", paint: { "background-color": TOKENS.themes.print.ground } }],
    },
    center: [lonDeg, latDeg],
    zoom,
    interactive: false,
    attributionControl: false,
    fadeDuration: 0,
    pixelRatio: PIXEL_RATIO,
    canvasContextAttributes: { preserveDrawingBuffer: true, antialias: true },
  });
  try {
    const handle = addBoughlineLayers(map, look.opened, { theme: "print", units, parts: look.parts });
    handle.setDate(look.dated);
    handle.setFilter(look.filter);
    handle.select(look.treeId);
    handle.selectZone(look.zoneId);
    await atRest(map, signal);
    const picture = await new Promise<Blob | null>((resolve) => map.getCanvas().toBlob(resolve, "image/png"));
    if (picture === null) throw new Error("The browser gave no picture of the map.");
    return { picture, latDeg, zoom: map.getZoom() };
  } finally {
    map.remove();
    stand.remove();
  }
}

/** Resolves when everything is drawn, rejects when it is given up. */
function atRest(map: MapLibreMap, signal: AbortSignal): Promise<void> {
  return new Promise((resolve, reject) => {
    signal.addEventListener("abort", () => reject(new Error("Given up")), { once: true });
    map.once("load", () => map.once("idle", () => resolve()));
  });
}
