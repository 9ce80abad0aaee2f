import { expect, it } from "vitest";
import { read, tableAfter } from "./markdown.ts";

// The tables of docs/method.md against the shipped standard: the same rows, in the same order, with the figures as published.
interface Source {
  readonly title: string;
  readonly section: string | null;
  readonly known: string;
}
interface Range {
  readonly min: string;
  readonly typical: string;
  readonly max: string;
}
interface StandardJson {
  readonly ways: {
    readonly parking: Readonly<Record<"parallel" | "diagonal" | "perpendicular", Range>>;
    readonly shoulder: Readonly<Record<"freeway" | "other", Range>>;
    readonly bikeLane: Range;
  };
  readonly droopAllowances: readonly {
    readonly id: string;
    readonly load: string;
    readonly amount: string;
    readonly appliesTo: string;
    readonly upToZone?: number;
    readonly source: Source;
  }[];
  readonly rules: readonly {
    readonly kind: string;
    readonly minimum: string;
    readonly clearTo: string;
    readonly admits: readonly string[];
    readonly hazard: { readonly below: string } | null;
    readonly source: Source;
  }[];
  readonly widths: Readonly<
    Record<
      string,
      { readonly min: string; readonly typical: string; readonly max: string; lane: string; speedMph: number }
    >
  >;
  readonly conductor: { readonly approach: readonly { readonly upToV: number; readonly distance: string }[] };
  readonly deadlines: Readonly<Record<string, number>>;
  readonly seasons: readonly {
    readonly id: string;
    readonly genera: readonly string[];
    readonly species?: readonly string[];
    readonly appliesTo: string;
    readonly regions: readonly string[];
    readonly avoidFrom: string;
    readonly avoidTo: string;
    readonly rank: string;
    readonly shiftsSouth: boolean;
    readonly source: Source;
  }[];
  readonly crew: { readonly minutesPerTree: readonly { readonly dbhBelow: string; readonly minutes: number }[] };
}

const page = read("docs/method.md");
const standard = JSON.parse(read("src/core/standard/us-common.json")) as StandardJson;
const code = (text: string): string => `\`${text}\``;
const table = (name: string): string[][] => tableAfter(page, `<!-- table: ${name} -->`);
const knownWords = (known: string): string => known.replace("-", " ").replace("second hand", "second-hand");

it("gives the clearances of the standard", () => {
  expect(table("rules")).toEqual(
    standard.rules.map(({ kind, minimum, clearTo, hazard, admits, source }) => [
      code(kind),
      minimum,
      clearTo,
      hazard?.below ?? "-",
      admits.join(", "),
      knownWords(source.known),
      source.section === null ? source.title : `${source.title}, ${source.section}`,
    ]),
  );
});

it("gives the widths by class", () => {
  expect(table("widths")).toEqual(
    Object.entries(standard.widths).map(([name, width]) => [
      code(name),
      width.min,
      width.typical,
      width.max,
      width.lane,
      `${width.speedMph} mph`,
    ]),
  );
});

it("gives what stands on one side of a road", () => {
  const { parking, shoulder, bikeLane } = standard.ways;
  const rows: [string, Range][] = [
    ["parallel parking", parking.parallel],
    ["diagonal parking", parking.diagonal],
    ["perpendicular parking", parking.perpendicular],
    ["shoulder of a freeway", shoulder.freeway],
    ["shoulder elsewhere", shoulder.other],
    ["bike lane", bikeLane],
  ];
  expect(table("sides")).toEqual(rows.map(([name, { min, typical, max }]) => [name, min, typical, max]));
});

it("gives the droop allowances", () => {
  expect(table("droop")).toEqual(
    standard.droopAllowances.map(({ id, load, amount, appliesTo, upToZone, source }) => [
      code(id),
      load,
      amount,
      appliesTo,
      upToZone === undefined ? "all" : `up to ${upToZone}`,
      knownWords(source.known),
    ]),
  );
});

it("gives the approach distances", () => {
  expect(table("approach")).toEqual(
    standard.conductor.approach.map(({ upToV, distance }) => [`${upToV.toLocaleString("en-US")} V`, distance]),
  );
});

it("gives the deadlines", () => {
  expect(table("deadlines")).toEqual(
    Object.entries(standard.deadlines).map(([hazard, days]) => [code(hazard), String(days)]),
  );
});

it("gives the seasons", () => {
  expect(table("seasons")).toEqual(
    standard.seasons.map((rule) => [
      code(rule.id),
      (rule.species?.length ?? 0) > 0
        ? rule.species!.join(", ")
        : rule.genera.length > 0
          ? rule.genera.join(", ")
          : rule.appliesTo,
      rule.regions.length > 0 ? rule.regions.join(", ") : "everywhere",
      `${rule.avoidFrom} to ${rule.avoidTo}`,
      rule.rank,
      rule.shiftsSouth ? "yes" : "no",
      knownWords(rule.source.known),
    ]),
  );
});

it("gives the minutes by stem", () => {
  expect(table("minutes")).toEqual(
    standard.crew.minutesPerTree.map(({ dbhBelow, minutes }) => [dbhBelow, String(minutes)]),
  );
});
