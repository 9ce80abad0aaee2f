import { Map as MapLibreMap } from "maplibre-gl";
import { addBoughlineLayers } from "./plugin/boughline.js";

const map = new MapLibreMap({
  container: "map",
  style: { version: 8, sources: {}, layers: [] },
  attributionControl: false,
});

const layers = addBoughlineLayers(map, "plan/current/", { fit: true });
layers.addEventListener("error", ({ detail }) => console.error(detail.error.message));

const chosen = document.getElementById("chosen");
layers.addEventListener("treeselect", ({ detail }) => {
  chosen.textContent = detail.treeId === null ? "" : `Tree ${detail.treeId}`;
});

document.getElementById("urgency").addEventListener("change", ({ target }) => {
  layers.setFilter(target.value === "" ? null : { urgencies: [target.value] });
});
document.getElementById("theme").addEventListener("change", ({ target }) => layers.setTheme(target.value));
