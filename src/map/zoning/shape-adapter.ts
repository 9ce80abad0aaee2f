import type { Map as MapLibreMap } from "maplibre-gl";
import { TerraDrawExtend } from "terra-draw";
import { TerraDrawMapLibreGLAdapter } from "terra-draw-maplibre-gl-adapter";
import { PREFIX } from "../ids.ts";

const DRAWN_PREFIX = `${PREFIX}drawn`;
/** Shape that the drawing library accepts by mouse and touch alike; smaller steps are noise of the hand. */
const COORDINATE_PRECISION = 9;

/**
 * Binds the drawing library to a map of which the host may change the style at any time: once the new style has taken the shape's layers, nothing is
 * written to them or taken off.
 */
export class ShapeAdapter extends TerraDrawMapLibreGLAdapter<MapLibreMap> {
  readonly #map: MapLibreMap;

  constructor(map: MapLibreMap) {
    super({ map, prefixId: DRAWN_PREFIX, coordinatePrecision: COORDINATE_PRECISION });
    this.#map = map;
  }

  override render(...change: Parameters<TerraDrawMapLibreGLAdapter<MapLibreMap>["render"]>): void {
    if (this.#isOnMap) super.render(...change);
  }

  override clear(): void {
    if (this.#isOnMap) super.clear();
  }

  override unregister(): void {
    if (this.#isOnMap) super.unregister();
    // What the library's own adapter does besides taking its layers off.
    else TerraDrawExtend.TerraDrawBaseAdapter.prototype.unregister.call(this);
  }

  get #isOnMap(): boolean {
    return this.#map.getSource(`${DRAWN_PREFIX}-point`) !== undefined;
  }
}
