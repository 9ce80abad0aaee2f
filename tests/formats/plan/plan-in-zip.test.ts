import { expect, test } from "vitest";
import { planInZip } from "../../../src/formats/plan/plan-in-zip.ts";
import { REVISION_NAMES } from "../../../src/formats/plan/revision-names.ts";
import { zip } from "../../../src/formats/zip.ts";

const bytes = (text: string) => new TextEncoder().encode(text);
const zipOf = (names: readonly string[]) =>
  new Blob([zip(names.map((name) => ({ name, bytes: bytes(name) }))) as Uint8Array<ArrayBuffer>]);

test("every file that a revision can hold comes back, crews' reports and layers among them", async () => {
  const files = await planInZip(zipOf(REVISION_NAMES));
  expect([...files!.keys()].sort()).toEqual([...REVISION_NAMES].sort());
  expect(await files!.get("record.jsonl")!.text()).toBe("record.jsonl");
});

test("what no revision holds stays in the zip, and a zip without a plan is none", async () => {
  const files = await planInZip(zipOf(["plan.json", "notes.txt"]));
  expect([...files!.keys()]).toEqual(["plan.json"]);
  expect(await planInZip(zipOf(["trees.geojson"]))).toBeNull();
});
