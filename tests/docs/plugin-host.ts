import { LngLatBounds, Map as MapLibreMap, setWorkerUrl } from "maplibre-gl";
import maplibreWorker from "maplibre-gl/dist/maplibre-gl-worker.mjs?worker&url";
import "maplibre-gl/dist/maplibre-gl.css";
import { openPlan } from "../../src/formats/plan/open-plan.ts";
import { urlSource } from "../../src/formats/plan/plan-source.ts";
import { BoughlineControl } from "../../src/map/index.ts";
import "../../styles/boughline.css";

setWorkerUrl(maplibreWorker);

const opened = await openPlan(urlSource("/plan/current/"));
const bounds = new LngLatBounds();
for (const { lonDeg, latDeg } of opened.plan.trees) bounds.extend([lonDeg, latDeg]);

const map = new MapLibreMap({ container: "map", style: "/your-style.json", bounds });
const control = new BoughlineControl({ plan: opened, theme: "light" });
control.addEventListener("treeselect", ({ detail }) => console.log(detail.treeId));
control.addEventListener("error", ({ detail }) => console.error(detail.error.message));
map.addControl(control);
