import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { openPlanFolder } from "../../src/cli/folder/plan-folder.ts";
import { writeSite } from "../../src/cli/server/write-site.ts";
import { townPlan } from "../formats/plan/recorded-town.ts";

let base: string;
const options = { basemap: "https://tiles.example/style.json", origins: ["https://tiles.example"], chosen: [] };
const PAGE = '<meta http-equiv="Content-Security-Policy" content="default-src \'self\'" />';

beforeAll(async () => {
  base = await mkdtemp(join(tmpdir(), "boughline-site-"));
  const folder = await openPlanFolder(join(base, "plan"), { replace: false, inputs: [] });
  await folder.commit(await townPlan(20), { plan: "p", as_of: "2026-11-02", event: "enrich" });
  folder.close();
  await mkdir(join(base, "app"));
  await writeFile(join(base, "app", "index.html"), PAGE);
}, 120_000);
afterAll(() => rm(base, { recursive: true, force: true }));

test("writes page, settings and the public plan, and names the map's server in the page's policy", async () => {
  const out = join(base, "new/site");
  await writeSite(join(base, "plan"), join(base, "app"), out, options);
  expect((await readdir(out)).sort()).toEqual(["config.json", "index.html", "plan"]);
  expect(await readFile(join(out, "index.html"), "utf8")).toContain("connect-src 'self' https://tiles.example");
  expect(JSON.parse(await readFile(join(out, "config.json"), "utf8"))).toEqual({
    basemap: options.basemap,
    name: "plan",
  });
  const files = await readdir(join(out, "plan/current"));
  expect(files).toContain("trees.geojson");
  expect(files.filter((name) => /^layer-|set-aside|record/.test(name))).toEqual([]);
  expect((await readdir(join(base, "new"))).sort()).toEqual(["site"]);
});

test("touches no folder that holds something", async () => {
  const out = join(base, "full");
  await mkdir(out);
  await writeFile(join(out, "mine.txt"), "mine");
  await expect(writeSite(join(base, "plan"), join(base, "app"), out, options)).rejects.toThrow("not empty");
  expect(await readdir(out)).toEqual(["mine.txt"]);
});

test("leaves nothing behind when the page cannot be copied", async () => {
  await expect(writeSite(join(base, "plan"), join(base, "missing"), join(base, "site"), options)).rejects.toThrow();
  expect((await readdir(base)).sort()).not.toContain("site");
  expect((await readdir(base)).filter((name) => name.startsWith(".") || name.includes("tmp"))).toEqual([]);
});
