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
let bytes: Awaited<ReturnType<typeof buildPlugin>>;

beforeAll(async () => {
  bytes = await buildPlugin(built);
});
afterAll(() => rmSync(folder, { recursive: true }));

const IMPORTS = /(?:^|[;}])import(?:[{*"'`]|\s)|\bimport\s*\(|\brequire\s*\(/gm;

test.each(["boughline.js", "boughline-zones.js", "boughline-draw.js"] as const)(
  "%s is at most 150 kB gzipped, without the map library",
  (name) => {
    const script = readFileSync(join(built, name));
    expect(bytes[name]).toBe(gzipSync(script).length);
    expect(bytes[name]).toBeGreaterThan(10_000);
    expect(bytes[name]).toBeLessThanOrEqual(150_000);
    expect(script.toString("utf8")).not.toContain("dev mode");
  },
);

test("only the zone tools load anything, and that is the drawing library, when it is wanted", () => {
  const text = (name: string) => readFileSync(join(built, name), "utf8");
  expect(text("boughline.js").match(IMPORTS)).toBeNull();
  expect(text("boughline-draw.js").match(IMPORTS)).toBeNull();
  expect(text("boughline-zones.js").match(IMPORTS)).toHaveLength(1);
  expect(text("boughline-zones.js")).toMatch(/import\s*\(\s*["'`]\.\/boughline-draw\.js["'`]\s*\)/);
  for (const name of ["boughline.js", "boughline-zones.js"]) expect(text(name)).not.toContain("coordinatePointWidth");
  expect(text("boughline-draw.js")).toContain("coordinatePointWidth");
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
import { addZoneTools } from "./plugin/boughline-zones.js";
const map = new MapLibreMap({ container: "map", style: "/style.json" });
const plan = addPlan(map, "/plan/current/", { theme: "print", legend: false, parts: ["marks"], beforeId: "labels", zoneTools: addZoneTools });
plan.zoneTools?.undo();
const tools = addZoneTools(map, plan, { position: "bottom-left", units: "us" });
tools.addEventListener("zoneedit", ({ detail }) => console.log(detail.label, detail.features.features.length));
tools.addEventListener("zonerefuse", ({ detail }) => console.log(detail.findings[0]?.mends[0]?.label));
await tools.edit({ kind: "rename", zoneId: "Z1", name: "Mill side" });
// @ts-expect-error
await tools.edit({ kind: "paint" });
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
