import { Map as MapLibreMap, setWorkerUrl } from "maplibre-gl";
import maplibreWorker from "maplibre-gl/dist/maplibre-gl-worker.mjs?worker&url";
import "maplibre-gl/dist/maplibre-gl.css";
import { addPlan } from "../../src/map/index.ts";
import "../../styles/boughline.css";

setWorkerUrl(maplibreWorker);

const map = new MapLibreMap({ container: "map", style: "/your-style.json" });
const plan = addPlan(map, "/plan/current/", { fit: true, theme: "light" });
plan.addEventListener("treeselect", ({ detail }) => console.log(detail.treeId));
plan.addEventListener("error", ({ detail }) => console.error(detail.error.message));
