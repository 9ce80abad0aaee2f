import "@fontsource/source-sans-3/latin-400.css";
import "@fontsource/source-sans-3/latin-600.css";
import type * as maplibre6 from "maplibre-gl";
import "maplibre-gl/dist/maplibre-gl.css";
import workerUrl from "maplibre-gl/dist/maplibre-gl-worker.mjs?worker&url";
import "../../../styles/boughline.css";
import * as plugin from "../../../src/map/index.ts";
import * as zoning from "../../../src/map/zoning/index.ts";
import { smallPlanFiles } from "../../app/small-plan.ts";
import { MIDDLE, smallOpenedPlan } from "../../map/small-opened-plan.ts";

const maplibre = await (new URL(location.href).searchParams.get("maplibre") === "5" ? major5() : major6());

async function major6(): Promise<typeof maplibre6> {
  const module = await import("maplibre-gl");
  module.setWorkerUrl(workerUrl);
  return module;
}

/** The older major comes as one script with its worker inside, and types of its own that the tests do not need apart. */
async function major5(): Promise<typeof maplibre6> {
  const module = await import("maplibre-gl-5");
  return ((module as { default?: unknown }).default ?? module) as typeof maplibre6;
}

const page = { maplibre, plugin, zoning, MIDDLE, smallOpenedPlan, smallPlanFiles };

declare global {
  interface Window {
    harness: typeof page;
    /** Put here by the tests. */
    openMap(container: string, style?: maplibre6.StyleSpecification): Promise<maplibre6.Map>;
    taken(map: maplibre6.Map): Record<"layers" | "sources" | "images", string[]> & { nodes: number; cursor: string };
    events: unknown[];
    control: plugin.BoughlineControl;
    shownMap: maplibre6.Map;
    axe: {
      run(selector: string): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }>;
    };
  }
}
window.harness = page;
