import { beforeAll, expect, test } from "vitest";
import { readChanges } from "../../../src/app/changes/read-changes.ts";
import { DATA_DICTIONARY } from "../../../src/core/plan/data-dictionary.ts";
import { memorySource } from "../../../src/formats/plan/plan-source.ts";
import { type Files, recorded, reportOf, townPlan, zonesOf } from "../plan/recorded-town.ts";
import { changesOf, nextYear, type TownTree, tally, townTrees } from "./next-year.ts";

/** One input is exchanged at a time: then every change has that cause and no other. */
const TREES = 110;
const AS_OF = "2026-11-02";
let town: Files;
let trees: TownTree[];
beforeAll(async () => {
  trees = townTrees(TREES);
  town = await townPlan(TREES);
}, 240_000);

const earlier = (files: Files, since?: Files) => ({
  files,
  measuredOn: null,
  ...(since === undefined ? {} : { since }),
});

test("nothing new changes nothing, and every file but plan.json is the same to the byte", async () => {
  const again = await nextYear({ trees, asOf: AS_OF, earlier: earlier(town) });
  expect(changesOf(again).size).toBe(0);
  for (const [name, bytes] of town) {
    if (name !== "plan.json") expect(Buffer.from(again.get(name)!).equals(Buffer.from(bytes)), name).toBe(true);
  }
}, 240_000);

test("a later date alone is growth and time; table and points have the members listed, and the page reads them", async () => {
  const later = await nextYear({ trees, asOf: "2027-11-02", earlier: earlier(town) });
  const names = DATA_DICTIONARY["changes.csv"].map(({ name }) => name);
  const [row] = changesOf(later).values();
  expect(Object.keys(row!)).toEqual(names);
  const points = JSON.parse(new TextDecoder().decode(later.get("changes.geojson"))).features;
  expect(points.length).toBe(changesOf(later).size);
  for (const { geometry, properties } of points) {
    expect(geometry.type).toBe("Point");
    expect(Object.keys(properties)).toEqual(names);
  }
  const lines = await readChanges(memorySource(later));
  expect(lines.map(({ treeId }) => treeId)).toEqual([...changesOf(later).keys()]);
  expect(lines.every(({ cause, identity }) => cause === "growth" && identity === "matched")).toBe(true);
  expect(Object.keys(tally(later, "cause"))).toEqual(["growth"]);
  expect(changesOf(later).size).toBeGreaterThan(20);
}, 240_000);

test("a stricter standard alone is the rule, which is named", async () => {
  const standardJson = {
    extends: "us-common",
    id: "stricter",
    title: "Stricter walks",
    rules: { "walkway-headroom": { minimum: "9 ft", clearTo: "10 ft" } },
  };
  const stricter = await nextYear({ trees, asOf: AS_OF, earlier: earlier(town), standardJson });
  expect(Object.keys(tally(stricter, "cause"))).toEqual(["rule"]);
  const details = Object.keys(tally(stricter, "detail"));
  expect(details).toEqual(["rules walkway-headroom: minimum 8 ft -> 9 ft, clearTo 9 ft -> 10 ft"]);
}, 240_000);

test("sizes measured anew alone are data, with the field that was decisive", async () => {
  // Every fifth tree with a measured crown base stands half a meter lower; its stem is 1 cm thicker, which changes nothing or little.
  const measured = trees.map((tree, at): TownTree => {
    const { crown_base: base, dbh } = tree.properties;
    if (at % 5 !== 0 || typeof base !== "number" || base < 1.5 || typeof dbh !== "number") return tree;
    return { ...tree, properties: { ...tree.properties, crown_base: base - 0.5, dbh: dbh + 1 } };
  });
  const changed = new Set(measured.flatMap((tree, at) => (tree === trees[at] ? [] : [tree.properties.id])));
  const anew = await nextYear({ trees: measured, asOf: AS_OF, earlier: earlier(town) });
  expect(Object.keys(tally(anew, "cause"))).toEqual(["data"]);
  const rows = [...changesOf(anew).values()];
  const own = rows.filter(({ tree }) => changed.has(tree!));
  expect(own.length).toBeGreaterThan(3);
  for (const { detail } of own) expect(detail).toMatch(/^(crown base|dbh|height|crown radius) .* -> /);
  expect(own.some(({ detail }) => detail!.startsWith("crown base"))).toBe(true);
  for (const { tree, detail } of rows) {
    // Other trees can only differ by what these hide of views, and by medians that follow the inventory.
    if (!changed.has(tree!)) expect(detail).toMatch(/hide of a view|estimated|basis/);
  }
}, 240_000);

test("a building that is gone is what stands around, and is named", async () => {
  const gone = await Promise.all(
    [...new Set(buildingsInConflict(town))].slice(0, 1).map(async (at) => ({
      at,
      files: await nextYear({ trees, asOf: AS_OF, earlier: earlier(town), without: { layer: "buildings", at } }),
    })),
  );
  for (const { files } of gone) {
    expect(Object.keys(tally(files, "cause"))).toEqual(["surroundings"]);
    expect(Object.keys(tally(files, "detail")).join()).toMatch(/is gone/);
  }
  expect(gone.length).toBe(1);
}, 240_000);

/** Places in the building layer of the buildings that some tree is in conflict with now. */
function buildingsInConflict(files: Files): number[] {
  const text = (name: string) => JSON.parse(new TextDecoder().decode(files.get(name)));
  const ids: string[] = text("layer-buildings.geojson").features.map((one: { properties: { id: string } }) =>
    String(one.properties.id),
  );
  return (text("conflicts.geojson").features as { properties: Record<string, unknown> }[]).flatMap(({ properties }) => {
    const at = ids.indexOf(String(properties.with_id));
    return properties.kind === "building-side" && at >= 0 && Number(properties.encroachment_m) > 0 ? [at] : [];
  });
}

test("work recorded since the last inventory is work, at the trees reported and where they open views", async () => {
  const [zone] = zonesOf(town);
  const { files } = await recorded(town, [reportOf(town, zone!, () => ({}))]);
  const after = await nextYear({ trees, asOf: AS_OF, earlier: earlier(files, town) });
  expect(Object.keys(tally(after, "cause"))).toEqual(["work"]);
  const reported = new Set(zone!.visit_ids.map((id) => id.slice(0, id.lastIndexOf("/v"))));
  for (const { tree, detail } of changesOf(after).values()) {
    expect(detail).toMatch(reported.has(tree!) ? /reported done on 2026-11-10/ : /opened a view/);
  }
}, 240_000);
