import { Map as MapLibreMap } from "maplibre-gl";
import { addPlan } from "./plugin/boughline.js";

const map = new MapLibreMap({
  container: "map",
  style: { version: 8, sources: {}, layers: [] },
  attributionControl: false,
});

const plan = addPlan(map, "plan/current/", { fit: true });
plan.addEventListener("error", ({ detail }) => console.error(detail.error.message));
