import { Map as MapLibreMap } from "maplibre-gl";

const PLAN = new URL("plan/current/", location.href);
const STYLES = new URL("plugin/styles/", location.href);

/** The fragment of a theme with its relative addresses made whole, over a ground in the theme's tone. */
async function styleOf(theme) {
  const [fragment, tokens] = await Promise.all(
    [`boughline-${theme}.json`, "tokens.json"].map(async (name) => (await fetch(new URL(name, STYLES))).json()),
  );
  for (const sprite of fragment.sprite) sprite.url = new URL(sprite.url, STYLES).href;
  for (const source of Object.values(fragment.sources)) source.data = new URL(source.data, PLAN).href;
  const ground = { "background-color": tokens.themes[theme].ground };
  return { ...fragment, layers: [{ id: "ground", type: "background", paint: ground }, ...fragment.layers] };
}

const trees = await (await fetch(new URL("trees.geojson", PLAN))).json();
const places = trees.features.map(({ geometry }) => geometry.coordinates);
const [lons, lats] = [0, 1].map((axis) => places.map((place) => place[axis]));
const bounds = [Math.min(...lons), Math.min(...lats), Math.max(...lons), Math.max(...lats)];

const map = new MapLibreMap({
  container: "map",
  style: await styleOf("light"),
  bounds,
  fitBoundsOptions: { padding: 48 },
  attributionControl: false,
});

document
  .getElementById("theme")
  .addEventListener("change", async ({ target }) => map.setStyle(await styleOf(target.value)));
document.getElementById("feet").addEventListener("change", ({ target }) => {
  map.setLayoutProperty("boughline-figures-us", "visibility", target.checked ? "visible" : "none");
  map.setLayoutProperty("boughline-figures", "visibility", target.checked ? "none" : "visible");
});
