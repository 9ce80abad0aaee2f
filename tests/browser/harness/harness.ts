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

declare global {
  interface Window {
    harness: typeof page;
    /** Put here by the tests. */
    openMap(container: string, style?: maplibre.StyleSpecification): Promise<maplibre.Map>;
    taken(map: maplibre.Map): Record<"layers" | "sources" | "images", string[]> & { nodes: number; cursor: string };
    events: unknown[];
    control: plugin.BoughlineControl;
    axe: {
      run(selector: string): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }>;
    };
  }
}
window.harness = page;
