import { Map as MapLibreMap } from "maplibre-gl";
import { BoughlineControl } from "./plugin/boughline.js";

/** Stands for your own style: land, buildings, streets and their names in your colors. */
const style = {
  version: 8,
  sources: { city: { type: "geojson", data: "plan/current/surroundings.geojson" } },
  layers: [
    { id: "land", type: "background", paint: { "background-color": "#eef3f0" } },
    {
      id: "buildings",
      type: "fill",
      source: "city",
      filter: ["==", ["get", "layer"], "buildings"],
      paint: { "fill-color": "#d5dfe3" },
    },
    {
      id: "streets",
      type: "line",
      source: "city",
      filter: ["all", ["==", ["get", "layer"], "roads"], ["==", ["geometry-type"], "LineString"]],
      layout: { "line-cap": "round", "line-join": "round" },
      paint: {
        "line-color": "#ffffff",
        "line-width": ["interpolate", ["exponential", 2], ["zoom"], 13, 1.5, 20, 110],
      },
    },
    {
      id: "street-names",
      type: "symbol",
      source: "city",
      filter: ["all", ["==", ["get", "layer"], "roads"], ["has", "name"]],
      layout: { "symbol-placement": "line", "text-field": ["get", "name"], "text-size": 13 },
      paint: { "text-color": "#2d5566", "text-halo-color": "#ffffff", "text-halo-width": 2 },
    },
  ],
};

const map = new MapLibreMap({ container: "map", style, attributionControl: false });
const control = new BoughlineControl({
  plan: "plan/current/",
  fit: true,
  card: false,
  open: false,
  beforeId: "street-names",
});
control.addEventListener("error", ({ detail }) => console.error(detail.error.message));

const card = document.getElementById("card");
control.addEventListener("treeselect", ({ detail: { treeId, feature } }) => {
  if (feature === null) {
    card.textContent = "Choose a tree on the map.";
    return;
  }
  const heading = document.createElement("h1");
  heading.textContent = `Tree ${treeId}`;
  const why = document.createElement("p");
  why.textContent = feature.properties.bough_why;
  card.replaceChildren(heading, why);
});

const toggle = document.getElementById("toggle");
toggle.addEventListener("click", () => {
  const isShown = map.hasControl(control);
  if (isShown) map.removeControl(control);
  else map.addControl(control);
  toggle.setAttribute("aria-pressed", String(!isShown));
});
map.addControl(control);
