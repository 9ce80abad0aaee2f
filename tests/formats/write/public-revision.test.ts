import { beforeAll, expect, test } from "vitest";
import { openPlan } from "../../../src/formats/plan/open-plan.ts";
import { memorySource } from "../../../src/formats/plan/plan-source.ts";
import { publicRevision } from "../../../src/formats/write/public-revision.ts";
import { type Files, townPlan } from "../plan/recorded-town.ts";

let files: Files;
const textOf = (all: Files) => [...all.values()].map((bytes) => new TextDecoder().decode(bytes)).join("\n");
const seeded = (all: Files, from: string, to: string): Files =>
  new Map(
    [...all].map(([name, bytes]) => [
      name,
      new TextEncoder().encode(new TextDecoder().decode(bytes).replaceAll(from, to)),
    ]),
  );

beforeAll(async () => {
  files = await townPlan(40);
}, 120_000);

test("is a whole plan, with the same trees, conflicts, visits and zones", async () => {
  const [all, open] = await Promise.all([openPlan(memorySource(files)), openPlan(memorySource(publicRevision(files)))]);
  expect(open.plan.trees.map(({ id }) => id)).toEqual(all.plan.trees.map(({ id }) => id));
  expect(open.plan.conflicts).toEqual(all.plan.conflicts);
  expect(open.plan.zones).toEqual(all.plan.zones);
  expect(open.plan.prescriptions).toEqual(all.plan.prescriptions);
  expect(open.trees.features).toHaveLength(all.trees.features.length);
  expect(open.plan.findings).toEqual([]);
});

test("says in no file who owns a tree and at which address it stands, unless asked to", () => {
  const secret = seeded(files, '"owner":"private"', '"owner":"Seeded Person"');
  expect(textOf(secret)).toContain("Seeded Person");
  expect(textOf(publicRevision(secret))).not.toContain("Seeded Person");
  expect(textOf(publicRevision(secret, ["owner"]))).toContain("Seeded Person");
  const addresses = [
    ...new TextDecoder().decode(files.get("prescriptions.jsonl")).matchAll(/"address":"(\d[^"]+)"/g),
  ].map(([, address]) => address!);
  expect(addresses.length).toBeGreaterThan(0);
  // A building may be named by its address, which stands in its own layer.
  const open = new TextDecoder().decode(publicRevision(files).get("prescriptions.jsonl"));
  expect(addresses.filter((address) => open.includes(`"address":"${address}"`))).toEqual([]);
});

test("leaves out the layers as they came, set-aside features, the record and the findings' values", () => {
  const names = [
    ...publicRevision(
      new Map([...files, ["record.jsonl", new Uint8Array(1)], ["words.jsonl", new Uint8Array(1)]]),
    ).keys(),
  ];
  expect(names.filter((name) => /^layer-|set-aside|record|words|visits|spans|added/.test(name))).toEqual([]);
  expect(new TextDecoder().decode(publicRevision(files).get("findings.csv")).trim().split("\n")).toHaveLength(1);
});
