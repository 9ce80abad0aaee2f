import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { LAYERS } from "../../../src/core/model/terms.ts";
import { DATA_DICTIONARY, type DictionaryField, type DictionaryFile } from "../../../src/core/plan/data-dictionary.ts";
import type { IsoDate } from "../../../src/core/units/calendar.ts";
import { readCsv } from "../../../src/formats/csv.ts";
import { makePlan } from "../../../src/formats/plan/make-plan.ts";

const root = join(import.meta.dirname, "../../..");
let files: ReadonlyMap<string, Uint8Array>;

beforeAll(async () => {
  const made = await makePlan(
    {
      revision: 1,
      files: LAYERS.map((layer) => ({
        layer,
        name: `${layer}.geojson`,
        bytes: readFileSync(join(root, `sample-geojson/${layer}.geojson`)),
        filter: null,
      })),
      columns: {},
      standardJson: null,
      options: {
        asOf: "2026-05-01" as IsoDate,
        units: "us",
        drive: "right",
        place: { hardinessZone: 5, region: "US-WI" },
      },
      crs: null,
      withZones: true,
    },
    () => {},
  );
  files = made.files;
});

const text = (name: string): string => new TextDecoder().decode(files.get(name));
const featuresOf = (name: string): { properties: Record<string, unknown> }[] => JSON.parse(text(name)).features;

/**
 * Every path of the records in order of first appearance, with the values met there; lists of objects are walked, other lists and the
 * `closed` paths are values.
 */
function pathsOf(records: readonly unknown[], closed: ReadonlySet<string>): Map<string, unknown[]> {
  const paths = new Map<string, unknown[]>();
  const walk = (path: string, value: unknown): void => {
    if (path !== "") {
      const met = paths.get(path);
      if (met === undefined) paths.set(path, [value]);
      else met.push(value);
    }
    if (closed.has(path)) return;
    const isObjects = Array.isArray(value) && value.length > 0 && typeof value[0] === "object";
    if (isObjects) for (const one of value) for (const key of Object.keys(one)) walk(`${path}[].${key}`, one[key]);
    else if (value !== null && typeof value === "object" && !Array.isArray(value)) {
      for (const [key, one] of Object.entries(value)) walk(path === "" ? key : `${path}.${key}`, one);
    }
  };
  for (const record of records) walk("", record);
  return paths;
}

const DATE = /^\d{4}-\d{2}-\d{2}$/;
const HOLDS: Record<DictionaryField["type"], (value: unknown) => boolean> = {
  text: (value) => typeof value === "string",
  integer: (value) => Number.isInteger(value),
  number: (value) => typeof value === "number" && Number.isFinite(value),
  boolean: (value) => typeof value === "boolean",
  date: (value) => typeof value === "string" && DATE.test(value),
  interval: (value) => typeof value === "string" && value.split("/").every((part) => DATE.test(part)),
  words: (value) => typeof value === "string" && value.split(",").every((word) => !word.includes(" ")),
  texts: (value) => Array.isArray(value) && value.every((one) => typeof one === "string"),
  numbers: (value) => Array.isArray(value) && value.every((one) => typeof one === "number"),
  counts: (value) => HOLDS.object(value) && Object.values(value as object).every((one) => Number.isInteger(one)),
  object: (value) => typeof value === "object" && value !== null && !Array.isArray(value),
  objects: (value) => Array.isArray(value) && value.every((one) => typeof one === "object"),
};

function faultsOf(fields: readonly DictionaryField[], paths: ReadonlyMap<string, readonly unknown[]>): string[] {
  return fields.flatMap(({ name, type, isNullable }) =>
    (paths.get(name) ?? [])
      .filter((value) => !(value === null ? isNullable : HOLDS[type](value)))
      .slice(0, 1)
      .map((value) => `${name}: ${JSON.stringify(value)} is no ${type}${isNullable ? "?" : ""}`),
  );
}

const TABLES = ["visits.csv", "spans.csv", "workload.csv", "findings.csv"] as const;
type TableFile = (typeof TABLES)[number];
/** Files of a plan that was carried on alone; tests/formats/carry holds them. */
const CARRIED = ["changes.csv", "changes.geojson"] as const;
type CarriedFile = (typeof CARRIED)[number];

const RECORDS: Record<Exclude<DictionaryFile, TableFile | CarriedFile>, () => unknown[]> = {
  "plan.json": () => [JSON.parse(text("plan.json"))],
  "trees.geojson": () =>
    featuresOf("trees.geojson").map(({ properties }) =>
      Object.fromEntries(Object.entries(properties).filter(([name]) => name.startsWith("bough_"))),
    ),
  "conflicts.geojson": () => featuresOf("conflicts.geojson").map(({ properties }) => properties),
  "surroundings.geojson": () => featuresOf("surroundings.geojson").map(({ properties }) => properties),
  "sight.geojson": () => featuresOf("sight.geojson").map(({ properties }) => properties),
  "zones.geojson": () => featuresOf("zones.geojson").map(({ properties }) => properties),
  "prescriptions.jsonl": () =>
    text("prescriptions.jsonl")
      .trimEnd()
      .split("\n")
      .map((line) => JSON.parse(line)),
};

describe("the data dictionary and the files of the sample town", () => {
  it.each(Object.keys(RECORDS) as (keyof typeof RECORDS)[])(
    "%s has just the members listed, each of its type",
    (file) => {
      const fields: readonly DictionaryField[] = DATA_DICTIONARY[file];
      const closed = new Set(fields.filter(({ type }) => type === "counts").map(({ name }) => name));
      const paths = pathsOf(RECORDS[file](), closed);
      expect([...paths.keys()].sort()).toEqual(fields.map(({ name }) => name).sort());
      expect(faultsOf(fields, paths)).toEqual([]);
    },
  );

  it.each(["trees.geojson", "conflicts.geojson", "surroundings.geojson", "sight.geojson", "zones.geojson"] as const)(
    "%s is written in the listed order",
    (file) => {
      const order = DATA_DICTIONARY[file].map(({ name }) => name);
      for (const record of RECORDS[file]()) expect(Object.keys(record as object)).toEqual(order);
    },
  );

  it.each(TABLES)("%s has just the columns listed, each of its type", (file) => {
    const [header, ...rows] = readCsv(text(file));
    const fields: readonly DictionaryField[] = DATA_DICTIONARY[file];
    expect(header).toEqual(fields.map(({ name }) => name));
    const cellValue = (cell: string, type: DictionaryField["type"]): unknown => {
      if (type === "integer" || type === "number") return cell === "" ? null : Number(cell);
      if (type === "boolean") return cell === "true" ? true : cell === "false" ? false : null;
      return type !== "text" && type !== "words" && cell === "" ? null : cell;
    };
    const paths = new Map(fields.map(({ name, type }, at) => [name, rows.map((row) => cellValue(row[at]!, type))]));
    expect(rows.length).toBeGreaterThan(0);
    expect(faultsOf(fields, paths)).toEqual([]);
  });

  it("names every file of a revision but those that repeat what the run was given", () => {
    const layers = LAYERS.filter((layer) => layer !== "trees").map((layer) => `layer-${layer}.geojson`);
    const repeated = ["set-aside.geojson", "columns.json", "standard.json", ...layers];
    expect([...files.keys()].sort()).toEqual(
      [...Object.keys(DATA_DICTIONARY).filter((name) => !CARRIED.some((one) => one === name)), ...repeated].sort(),
    );
  });

  it("lists each member once, with a meaning", () => {
    for (const fields of Object.values(DATA_DICTIONARY) as (readonly DictionaryField[])[]) {
      expect(new Set(fields.map(({ name }) => name)).size).toBe(fields.length);
      for (const { meaning } of fields) expect(meaning).toMatch(/^\S.*[^.\s]$/);
    }
  });
});

describe("docs/files.md", () => {
  /** Names, type and unit words of the table under "Members added to a tree". */
  function documented(): Map<string, string> {
    const docs = readFileSync(join(root, "docs/files.md"), "utf8");
    const section = docs.split("## Members added to a tree")[1]!.split("\n## ")[0]!;
    return new Map(
      section
        .split("\n")
        .filter((line) => line.startsWith("| `"))
        .flatMap((line) => {
          const [names = "", type = ""] = line.slice(1).split("|");
          return [...names.matchAll(/`([^`]+)`/g)].map((match) => [match[1]!, type.trim()] as const);
        }),
    );
  }

  const DOCUMENTED_TYPES: Partial<Record<DictionaryField["type"], string>> = {
    words: "text",
    integer: "number",
    boolean: "true/false",
  };

  it("lists the members of a tree in order with the dictionary's types", () => {
    const expected = DATA_DICTIONARY["trees.geojson"].map(({ name, type, isNullable }): [string, string] => [
      name,
      `${DOCUMENTED_TYPES[type] ?? type}${isNullable ? " or null" : ""}`,
    ]);
    expect([...documented()]).toEqual(expected);
  });
});
