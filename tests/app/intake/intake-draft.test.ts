import { describe, expect, test } from "vitest";
import { takeIn } from "../../../src/app/intake/intake.ts";
import {
  emptyDraft,
  planRequestOf,
  questionOf,
  withChoice,
  withFile,
  withIntake,
  withTables,
} from "../../../src/app/intake/intake-draft.ts";
import type { FieldChoice, IntakeReport } from "../../../src/worker/intake/intake-messages.ts";

const file = (name: string, content = "x") => ({ name, blob: new Blob([content]) });
const draftOf = async (...names: string[]) =>
  withIntake(emptyDraft("2026-11-02"), await takeIn(names.map((name) => file(name))));
const choice = (field: string, column: string | null): FieldChoice => ({
  layer: "trees",
  field,
  column,
  unit: null,
  zero: null,
});

describe("withTables", () => {
  test("takes a file apart into its tables, each with its layer, and asks of each", async () => {
    const draft = await draftOf("trees.csv", "city.gpkg");
    const key = draft.files.find(({ name }) => name === "city.gpkg")!.key;
    const apart = withTables(draft, key, [
      { table: "hydrants", layer: null, because: null },
      { table: "roads", layer: "roads", because: "its name" },
    ]);
    expect(apart.files.map(({ name, table, layer }) => [name, table, layer])).toEqual([
      ["trees.csv", null, "trees"],
      ["city.gpkg", "roads", "roads"],
      ["city.gpkg", "hydrants", null],
    ]);
    expect(new Set(apart.files.map((one) => one.key)).size).toBe(3);
    expect(questionOf(apart)!.sources.map(({ table }) => table)).toEqual([null, "roads"]);
  });

  test("a layer that the person chose meanwhile stays", async () => {
    const draft = await draftOf("export.gpkg");
    const { key } = draft.files[0]!;
    const chosen = withFile(draft, key, { layer: "paths", because: null });
    expect(withTables(chosen, key, [{ table: null, layer: "roads", because: "what it holds" }]).files[0]!.layer).toBe(
      "paths",
    );
  });
});

test("a file of the same name takes the place of the one before, under a key of its own", async () => {
  const draft = await draftOf("trees.csv");
  const again = withIntake(draft, await takeIn([file("trees.csv", "longer")]));
  expect(again.files.map(({ blob }) => blob.size)).toEqual([6]);
  expect(again.files[0]!.key).not.toBe(draft.files[0]!.key);
});

test("a column chosen for one field is not chosen for another any more", async () => {
  const draft = await draftOf("trees.csv");
  const both = withChoice(withChoice(draft, choice("height", "H")), choice("crown_base", "H"));
  expect(both.choices.map(({ field, column }) => [field, column])).toEqual([["crown_base", "H"]]);
  const none = withChoice(withChoice(draft, choice("height", null)), choice("dbh", null));
  expect(none.choices).toHaveLength(2);
});

describe("planRequestOf", () => {
  const report = (draft: Awaited<ReturnType<typeof draftOf>>, part: object = {}): IntakeReport => ({
    sources: draft.files.map(({ key }) => ({
      key,
      read: 3,
      used: 3,
      setAside: 0,
      leftOut: 0,
      system: "WGS 84",
      fault: null,
      reasons: [],
      notes: [],
      choices: [],
      ...part,
    })),
    layers: [],
    columns: { trees: { height: { column: "H" } } },
    standard: {
      shipped: [],
      title: "",
      isWhole: false,
      changes: [],
      warnings: [],
      faults: [],
      rules: [],
      json: null,
    },
  });

  test("hands on table, filter, coordinate system and the whole column map", async () => {
    const draft = withFile(await draftOf("trees.gpkg"), "0", { table: "t", filter: " A = b ", crs: " EPSG:2263 " });
    expect(planRequestOf(draft, report(draft))).toMatchObject({
      files: [{ name: "trees.gpkg", layer: "trees", table: "t", filter: "A = b", crs: "EPSG:2263" }],
      columns: { trees: { height: { column: "H" } } },
    });
  });

  test.each([
    [["roads.csv"], {}, /One file must be the trees/],
    [["trees.csv"], { used: 0, setAside: 3 }, /No tree can be used/],
    [
      ["trees.csv"],
      { fault: { reason: "It is damaged.", whatToDo: "Export it anew." } },
      /trees\.csv cannot be used\. It is damaged/,
    ],
  ])("says what is missing of %j", async (names, part, sentence) => {
    const draft = await draftOf(...names);
    expect(planRequestOf(draft, report(draft, part))).toMatch(sentence);
  });
});
