import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { afterAll, beforeAll, expect, test } from "vitest";
import { buildPlugin, writeTypes } from "../../src/map/make/build-plugin.ts";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "boughline-plugin-"));
const built = join(folder, "plugin");
let bytes = 0;

beforeAll(async () => {
  bytes = await buildPlugin(built);
});
afterAll(() => rmSync(folder, { recursive: true }));

test("the script is at most 150 kB gzipped, without the map library and without imports", () => {
  const script = readFileSync(join(built, "boughline.js"));
  expect(bytes).toBe(gzipSync(script).length);
  expect(bytes).toBeGreaterThan(10_000);
  expect(bytes).toBeLessThanOrEqual(150_000);
  expect(script.toString("utf8")).not.toContain("dev mode");
  expect(script.toString("utf8")).not.toMatch(/^\s*import\b|\bimport\s*\(|\brequire\s*\(/m);
});

test("beside it stand one style sheet and the styles, nothing of how they are made", () => {
  const css = readFileSync(join(built, "boughline.css"), "utf8");
  expect(css).not.toContain("@import");
  expect(css).toContain("--boughline-ink");
  for (const name of ["boughline-light.json", "sprite-light@2x.png", "tokens.json"])
    expect(existsSync(join(built, "styles", name))).toBe(true);
  expect(existsSync(join(built, "styles/write-styles.ts"))).toBe(false);
});

/** What a host outside this checkout writes; each line marked as a mistake must be one. */
const HOST = `import { Map as MapLibreMap } from "maplibre-gl";
import { addPlan, BoughlineControl } from "./plugin/boughline.js";
const map = new MapLibreMap({ container: "map", style: "/style.json" });
const plan = addPlan(map, "/plan/current/", { theme: "print", legend: false, parts: ["marks"], beforeId: "labels" });
plan.addEventListener("treeselect", ({ detail }) => console.log(detail.treeId?.toUpperCase(), detail.feature?.geometry));
map.addControl(new BoughlineControl({ plan: [new File([], "plan.json")] }));
console.log(plan.plan?.plan.trees[0]?.height.valueM.toFixed(1));
// @ts-expect-error
plan.addEventListener("treechosen", () => {});
// @ts-expect-error
plan.setTheme("sepia");
// @ts-expect-error
addPlan(map, 7);
`;

test.each([
  ["bundler", "esnext"],
  ["nodenext", "nodenext"],
])("a host outside this checkout has its types, resolved as %s does", (resolution, module) => {
  if (!existsSync(join(built, "boughline.d.ts"))) writeTypes(built);
  writeFileSync(join(folder, "host.ts"), HOST);
  writeFileSync(join(folder, "package.json"), '{ "type": "module" }');
  if (!existsSync(join(folder, "node_modules"))) {
    mkdirSync(join(folder, "node_modules"));
    // The map library and the types of GeoJSON are the host's own; nothing else of this checkout is in reach.
    for (const name of ["maplibre-gl", "@types"])
      symlinkSync(join(ROOT, "node_modules", name), join(folder, "node_modules", name));
  }
  const settings = `--noEmit --strict --skipLibCheck --target es2023 --lib es2023,dom,dom.iterable --types geojson`;
  const compiler = join(ROOT, "node_modules/typescript/bin/tsc");
  const more = ["--module", module, "--moduleResolution", resolution, "host.ts"];
  try {
    execFileSync(process.execPath, [compiler, ...settings.split(" "), ...more], { cwd: folder, stdio: "pipe" });
  } catch (error) {
    expect((error as { stdout: Buffer }).stdout.toString()).toBe("");
    throw error;
  }
});
