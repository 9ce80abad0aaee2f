import { expect, test } from "vitest";
import { isCompletion } from "../../../src/app/record/is-completion.ts";
import { zip } from "../../../src/formats/zip.ts";

const REPORT = JSON.stringify({ format: "boughline-completion", version: 1 });
const blob = (text: string | Uint8Array) => new Blob([text as string]);
const bytes = (text: string) => new TextEncoder().encode(text);

test.each([
  ["the phone page's JSON", "zone.json", REPORT],
  ["a table with our words", "monday.csv", "tree,outcome,date\nT-1,done,2026-11-20\n"],
  ["a table that names visits", "monday.csv", '"visit";"status";"date"\n"T-1/v1";"done";"2026-11-20"\n'],
  ["a table with a byte order mark", "monday.csv", "﻿tree,outcome,date\n"],
  [
    "a zip of a report and a photo",
    "week.zip",
    zip([
      { name: "a.json", bytes: bytes(REPORT) },
      { name: "a.jpg", bytes: bytes("x") },
    ]),
  ],
])("%s is a report", async (_, name, content) => {
  expect(await isCompletion(name, blob(content))).toBe(true);
});

test.each([
  ["a layer", "trees.geojson", '{"type":"FeatureCollection","features":[]}'],
  ["a column map", "columns.json", '{"trees":{}}'],
  ["an inventory with a status and a date", "trees.csv", "tree_id,species,status,date\n1,Acer,done,2026-11-20\n"],
  ["a zip of layers", "city.zip", zip([{ name: "trees.geojson", bytes: bytes("{}") }])],
  ["a zip that is none", "city.zip", "PK nothing"],
  ["an empty file", "zone.json", ""],
])("%s is none", async (_, name, content) => {
  expect(await isCompletion(name, blob(content))).toBe(false);
});
