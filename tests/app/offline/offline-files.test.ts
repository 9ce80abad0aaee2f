import { expect, test } from "vitest";
import { answerFor } from "../../../src/app/offline/offline-files.ts";

const ROOT = "https://city.example/trees/";
const FILES = ["index.html", "assets/index-1.js", "assets/a b.geojson"];
const answer = (path: string, isNavigation = false) => answerFor(new URL(path, ROOT).href, ROOT, isNavigation, FILES);

test("the page itself comes from the cache whatever its link holds, but only when it is opened", () => {
  expect(answer("", true)).toEqual({ from: "cache", file: "index.html" });
  expect(answer("?view=tree&id=7#x", true)).toEqual({ from: "cache", file: "index.html" });
  expect(answer("index.html", true)).toEqual({ from: "cache", file: "index.html" });
  expect(answer("index.html")).toEqual({ from: "network" });
});

test("its own files come from the cache, nothing else of its server or another does", () => {
  expect(answer("assets/index-1.js")).toEqual({ from: "cache", file: "assets/index-1.js" });
  expect(answer("assets/a%20b.geojson")).toEqual({ from: "cache", file: "assets/a b.geojson" });
  expect(answer("assets/index-2.js")).toEqual({ from: "network" });
  expect(answer("plan/current/trees.geojson")).toEqual({ from: "network" });
  expect(answer("/other/assets/index-1.js")).toEqual({ from: "network" });
  expect(answer("https://tiles.example/trees/assets/index-1.js")).toEqual({ from: "network" });
});

test("settings and the served plan are asked of the server, and without one there are none", () => {
  expect(answer("config.json")).toEqual({ from: "network-or", text: "{}" });
  expect(answer("plan/current/plan.json")).toEqual({ from: "network-or", text: "null" });
});
