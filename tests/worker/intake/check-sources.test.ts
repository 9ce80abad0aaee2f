import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { NOT_USED } from "../../../src/core/model/not-used.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { makePlan } from "../../../src/formats/plan/make-plan.ts";
import { checkSources } from "../../../src/worker/intake/check-sources.ts";
import type {
  FieldChoice,
  IntakeQuestion,
  IntakeReport,
  IntakeSource,
} from "../../../src/worker/intake/intake-messages.ts";
import { SourceReads } from "../../../src/worker/intake/source-reads.ts";
import { cityGeoPackage, treesCsv } from "../../browser/city-files.ts";

const source = (name: string, content: string | Uint8Array, part: Partial<IntakeSource> = {}): IntakeSource => ({
  key: name,
  name,
  blob: new Blob([content as Uint8Array<ArrayBuffer>]),
  layer: "trees",
  filter: null,
  table: null,
  crs: null,
  ...part,
});

const ask = (sources: readonly IntakeSource[], part: Partial<IntakeQuestion> = {}): IntakeQuestion => ({
  sources,
  given: {},
  choices: [],
  standard: { base: "us-common", own: null },
  options: { asOf: isoDate("2026-11-02"), units: "us", drive: "right", place: { hardinessZone: null, region: null } },
  ...part,
});

async function check(question: IntakeQuestion, reads = new SourceReads()): Promise<IntakeReport> {
  const report = await checkSources(question, reads);
  if (report === null) throw new Error("Expected a report");
  return report;
}

const choice = (field: string, column: string | null, part: Partial<FieldChoice> = {}): FieldChoice => ({
  layer: "trees",
  field,
  column,
  unit: null,
  zero: null,
  ...part,
});

const rowOf = (report: IntakeReport, field: string) =>
  report.layers.find(({ layer }) => layer === "trees")?.rows.find((row) => row.field === field);

describe("checkSources", () => {
  test("what it says will be set aside is what a run with its column map sets aside", async () => {
    const gpkg = await cityGeoPackage();
    const bytes = new TextEncoder().encode(treesCsv());
    const report = await check(
      ask([
        source("trees.csv", bytes),
        source("city.gpkg", gpkg, { layer: "roads", table: "street_centerlines", filter: "KIND one of Road, Alley" }),
      ]),
    );
    const [trees, roads] = report.sources;
    for (const { read, used, setAside } of report.sources) expect(used + setAside).toBe(read);
    // One tree has no position; a quarter of the 112 streets is planned.
    expect(trees).toMatchObject({ read: 1477, used: 1476, setAside: 1, leftOut: 0 });
    expect(roads).toMatchObject({ read: 112, used: 84, setAside: 28, leftOut: 28 });
    expect(trees!.reasons.map(({ count }) => count)).toEqual([1]);
    expect(roads!.reasons).toEqual([]);

    const { files } = await makePlan(
      {
        revision: 1,
        files: [
          { layer: "trees", name: "trees.csv", bytes, filter: null },
          {
            layer: "roads",
            name: "city.gpkg",
            bytes: gpkg,
            table: "street_centerlines",
            filter: "KIND one of Road, Alley",
          },
        ],
        columns: report.columns,
        standardJson: report.standard.json,
        options: ask([]).options,
        crs: null,
        withZones: false,
      },
      () => {},
    );
    const aside = JSON.parse(new TextDecoder().decode(files.get("set-aside.geojson")));
    expect(aside.features).toHaveLength(29);
    expect(JSON.parse(new TextDecoder().decode(files.get("columns.json")))).toEqual(report.columns);
  });

  test("a column that a person chooses is read in the unit that its values or the field say", async () => {
    const csv = source("trees.csv", treesCsv(300));
    const reads = new SourceReads();
    const before = await check(ask([csv]), reads);
    expect(rowOf(before, "height")).toBeUndefined();
    const chosen = await check(ask([csv], { choices: [choice("height", "Total")] }), reads);
    expect(rowOf(chosen, "height")).toMatchObject({ column: "Total", unit: "m", from: "person", shareReadable: 1 });
    const inFeet = await check(ask([csv], { choices: [choice("height", "Total", { unit: "ft" })] }), reads);
    const middleM = rowOf(inFeet, "height")!.middleM!;
    // The same numbers, a foot being 0.3048 m exactly.
    expect(middleM).toBeCloseTo(rowOf(chosen, "height")!.middleM! * 0.3048, 9);
    expect(inFeet.columns.trees?.height).toEqual({ column: "Total", unit: "ft", zero: "unknown" });
  });

  test("a column feeds one field: a guess gives way to a choice", async () => {
    const csv = source("trees.csv", treesCsv(300));
    expect(rowOf(await check(ask([csv])), "crown_spread")?.column).toBe("Spread (ft)");
    const report = await check(ask([csv], { choices: [choice("crown_radius", "Spread (ft)", { unit: "ft" })] }));
    expect(rowOf(report, "crown_spread")).toBeUndefined();
    expect(rowOf(report, "crown_radius")?.unit).toBe("ft");
  });

  test("a field that is to have no column is read from none, although one has its name", async () => {
    const town = readFileSync(new URL("../../../sample-geojson/trees.geojson", import.meta.url));
    const trees = source("trees.geojson", town);
    const report = await check(ask([trees], { choices: [choice("height", null)] }));
    expect(rowOf(report, "height")).toBeUndefined();
    expect(report.columns.trees?.height).toEqual({ column: NOT_USED });
    const doubts = report.layers[0]!.doubts.map(({ code }) => code);
    expect(doubts).not.toContain("column-not-found");
  });

  test("a map from a file is not guessed over, and saving it and loading it changes nothing", async () => {
    const csv = source("trees.csv", treesCsv(300));
    const given = { trees: { dbh: { column: "DBH (in)", unit: "in" as const } } };
    const report = await check(ask([csv], { given }));
    expect(report.layers[0]!.rows.map(({ field, from }) => [field, from])).toEqual([["dbh", "map"]]);
    const guessed = await check(ask([csv]));
    const again = await check(ask([csv], { given: guessed.columns }));
    expect(again.columns).toEqual(guessed.columns);
  });

  test("lists the kinds of a column with their counts, also while a filter is set, and not of a column of names", async () => {
    const csv = source("trees.csv", treesCsv(300));
    const reads = new SourceReads();
    const all = await check(ask([csv]), reads);
    const kinds = (report: IntakeReport, column: string) =>
      report.sources[0]!.choices.find((one) => one.column === column)?.values;
    expect(kinds(all, "TREE_ID")).toBeNull();
    const conditions = kinds(all, "COND")!;
    const good = conditions.find(({ value }) => value === "good")!.count;
    const filtered = await check(ask([{ ...csv, filter: "COND = good" }]), reads);
    expect(kinds(filtered, "COND")).toEqual(conditions);
    expect(filtered.sources[0]!.used).toBe(good);
  });

  test("a filter, a coordinate system and a file that cannot be read are told at their source, the others are read", async () => {
    const report = await check(
      ask([
        source("a.csv", treesCsv(300), { filter: "COND is good" }),
        source("b.csv", treesCsv(300), { crs: "EPSG:999999" }),
        source("c.geojson", '{"type":'),
        source("d.csv", treesCsv(300)),
      ]),
    );
    expect(report.sources.map(({ fault }) => fault !== null)).toEqual([true, true, true, false]);
    expect(report.sources[0]!.fault!.reason).toContain("COND is good");
    expect(report.sources[3]!.used).toBe(299);
  });

  test("a city's values are merged and told, and what is below a legal floor with them", async () => {
    const own = { extends: "us-common", title: "Ours", rules: { "walkway-headroom": { minimum: "6 ft" } } };
    const { standard } = await check(ask([], { standard: { base: "us-common", own } }));
    expect(standard.changes[0]).toMatchObject({ path: "rules.walkway-headroom.minimum", from: "8 ft", to: "6 ft" });
    // 6 ft is 72 in, below the 80 in of ADA/ABA 307.4.
    expect(standard.warnings.map(({ code }) => code)).toContain("below-legal-floor");
    const broken = await check(ask([], { standard: { base: "us-common", own: { ...own, rules: { nonsense: {} } } } }));
    expect(broken.standard.faults[0]).toContain("nonsense");
  });

  test("tells the columns before every tree is looked at, and gives up there for a newer question", async () => {
    let isCurrent = true;
    let early: IntakeReport | null = null;
    const question = ask([source("trees.csv", treesCsv(60))]);
    const report = await checkSources(
      question,
      new SourceReads(),
      () => isCurrent,
      (given) => {
        early = given;
        isCurrent = false;
      },
    );
    expect(report).toBeNull();
    const whole = await check(question);
    expect(early!).toMatchObject({ columns: whole.columns, layers: [{ rows: whole.layers[0]!.rows, doubts: [] }] });
  });

  test("gives up for a newer question", async () => {
    const reads = new SourceReads();
    expect(await checkSources(ask([source("trees.csv", treesCsv(300))]), reads, () => false)).toBeNull();
  });
});
