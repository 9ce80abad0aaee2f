import { Map as MapLibreMap } from "maplibre-gl";
import { addPlan } from "./plugin/boughline.js";
import { addZoneTools } from "./plugin/boughline-zones.js";

const map = new MapLibreMap({
  container: "map",
  style: { version: 8, sources: {}, layers: [] },
  attributionControl: false,
});

// The tools show what a zone takes, so the plan's own panel need not.
const plan = addPlan(map, "plan/current/", { fit: true, legend: false, card: false, zoneTools: addZoneTools });
plan.addEventListener("error", ({ detail }) => console.error(detail.error.message));

const said = document.getElementById("said");
plan.zoneTools.addEventListener("zoneedit", ({ detail }) => {
  // Here a page of yours would send `detail.features` to where the plan is kept.
  said.textContent = `${detail.label}: ${detail.zones.length} zones, not kept by this page.`;
});
plan.zoneTools.addEventListener("zonerefuse", ({ detail }) => {
  said.textContent = `Not done: ${detail.findings[0].reason}`;
});
