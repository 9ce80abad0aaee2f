import "@fontsource/source-sans-3/latin-400.css";
import "@fontsource/source-sans-3/latin-600.css";
import * as maplibre from "maplibre-gl";
import "maplibre-gl/dist/maplibre-gl.css";
import workerUrl from "maplibre-gl/dist/maplibre-gl-worker.mjs?worker&url";
import "../../../styles/boughline.css";
import * as plugin from "../../../src/map/index.ts";
import { MIDDLE, smallOpenedPlan } from "../../map/small-opened-plan.ts";

maplibre.setWorkerUrl(workerUrl);

const page = { maplibre, plugin, MIDDLE, smallOpenedPlan };
export type Harness = typeof page;

declare global {
  interface Window {
    harness: Harness;
  }
}
window.harness = page;
