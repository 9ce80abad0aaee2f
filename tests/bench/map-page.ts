/** The page of the map bench: `window.bench` adds points or a plan to a map and measures how the page fares. */
export const MAP_PAGE = `<!doctype html>
<meta charset="utf-8">
<link rel="icon" href="data:,">
<link rel="stylesheet" href="/maplibre/maplibre-gl.css">
<link rel="stylesheet" href="/plugin/boughline.css">
<script type="importmap">{ "imports": { "maplibre-gl": "/maplibre/maplibre-gl.mjs" } }</script>
<div id="map" style="width: 1200px; height: 800px"></div>
<script type="module">
  import * as maplibre from "maplibre-gl";
  import { addPlan, tiledPlan } from "/plugin/boughline.js";

  const longMs = [];
  new PerformanceObserver((list) => longMs.push(...list.getEntries().map((entry) => entry.duration))).observe({
    type: "longtask",
  });
  const frame = () => new Promise((done) => requestAnimationFrame(done));
  // An empty map goes idle in the very frame in which it has loaded, so that the next frame must be asked for.
  const settled = async (map) => {
    const idle = map.once("idle");
    map.triggerRepaint();
    await idle;
  };

  window.bench = {
    /** What is on the map: nothing, the trees as plain circles, the plan by its tiles, or the whole plan. */
    async open(what, center) {
      const style = { version: 8, sources: {}, layers: [] };
      const map = new maplibre.Map({ container: "map", style, center, zoom: 14, fadeDuration: 0 });
      await map.once("load");
      await settled(map);
      longMs.length = 0;
      const start = performance.now();
      if (what === "points") {
        map.addSource("points", { type: "geojson", data: "/points.json" });
        map.addLayer({ id: "points", type: "circle", source: "points", paint: { "circle-radius": 3 } });
      }
      if (what === "tiles" || what === "whole") {
        const from = what === "tiles" ? tiledPlan("/plan/", maplibre) : "/plan/";
        const plan = addPlan(map, from, { open: false });
        plan.addEventListener("error", ({ detail }) => console.error(detail.error.message));
        await new Promise((done) => plan.addEventListener("planload", done));
        window.plan = plan;
      }
      if (what !== "nothing") await settled(map);
      await frame();
      window.map = map;
      return { ms: performance.now() - start, longMs: [...longMs] };
    },
    /** Milliseconds of each frame while the map is moved by 12 pixels a frame. */
    async pan(zoom, frames) {
      const { map } = window;
      map.jumpTo({ zoom });
      await settled(map);
      const times = [];
      let last = await frame();
      for (let at = 0; at < frames; at += 1) {
        map.panBy([at % 2 < 1 ? 12 : 9, 4], { animate: false });
        const now = await frame();
        times.push(now - last);
        last = now;
      }
      return times;
    },
    /** Milliseconds until the map has settled after a filter was set. */
    async filter(wanted) {
      const start = performance.now();
      longMs.length = 0;
      window.plan.setFilter(wanted);
      await settled(window.map);
      return { ms: performance.now() - start, longMs: [...longMs] };
    },
  };
</script>`;
