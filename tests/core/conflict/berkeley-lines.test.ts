import { readFileSync } from "node:fs";
import type { Feature, FeatureCollection, LineString } from "geojson";
import { beforeAll, describe, expect, it } from "vitest";
import { LAYERS, type Layer } from "../../../src/core/model/terms.ts";
import { shippedStandard } from "../../../src/core/standard/shipped-standards.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { readCsv } from "../../../src/formats/csv.ts";
import { makePlan } from "../../../src/formats/plan/make-plan.ts";
import { openPlan } from "../../../src/formats/plan/open-plan.ts";
import { memorySource } from "../../../src/formats/plan/plan-source.ts";
import { treesAlongLines } from "../../fixtures/berkeley-lines/trees-along-lines.ts";

const LINES = readFileSync(new URL("../../fixtures/berkeley-lines/conductors.geojson", import.meta.url));
const lines = JSON.parse(LINES.toString()) as FeatureCollection<LineString>;
const trees = treesAlongLines(lines.features as Feature<LineString>[], 25, 20260401);

/** A pole with a surveyed attachment where the line without a voltage begins. */
const POLE = {
  type: "Feature",
  id: "pole",
  properties: { power: "pole", attachment_height_1: "11 m" },
  geometry: { type: "Point", coordinates: lines.features.at(-1)!.geometry.coordinates[0]! },
};

type Properties = Record<string, unknown>;
let files: ReadonlyMap<string, Uint8Array>;
const text = (name: string): string => new TextDecoder().decode(files.get(name));
const properties = (name: string): Properties[] =>
  (JSON.parse(text(name)) as FeatureCollection).features.map((one) => one.properties as Properties);
const rows = (name: string): Properties[] => {
  const [header, ...cells] = readCsv(text(name));
  return cells.map((row) => Object.fromEntries(header!.map((column, at) => [column, row[at]])));
};

beforeAll(async () => {
  const layers: Partial<Record<Layer, Uint8Array>> = {
    trees: new TextEncoder().encode(JSON.stringify(trees)),
    conductors: new TextEncoder().encode(JSON.stringify({ ...lines, features: [...lines.features, POLE] })),
  };
  const made = await makePlan(
    {
      revision: 1,
      files: LAYERS.flatMap((layer) => {
        const bytes = layers[layer];
        return bytes === undefined ? [] : [{ layer, name: `${layer}.geojson`, bytes, filter: null }];
      }),
      columns: {},
      standardJson: shippedStandard("transmission"),
      options: {
        asOf: isoDate("2026-04-01"),
        units: "metric",
        drive: "left",
        place: { hardinessZone: null, region: null },
      },
      crs: null,
      withZones: false,
    },
    () => {},
  );
  files = made.files;
});

describe("trees along real lines of 11, 33 and 132 kV", () => {
  it("stand where the seed puts them", () => {
    expect(trees.features.length).toBeGreaterThan(100);
    expect(treesAlongLines(lines.features as Feature<LineString>[], 25, 20260401)).toEqual(trees);
  });

  it("have conflicts by the rule of each voltage, named with span and load case, none of them sure", () => {
    const conflicts = properties("conflicts.geojson").filter(({ kind }) => kind === "conductor");
    const rules = new Set(conflicts.map(({ with_id, rule }) => `${with_id} ${rule}`));
    expect([...rules].sort()).toEqual([
      "way/1426850194 conductor-distribution",
      "way/256596760 conductor-distribution",
      "way/666149190 conductor-distribution",
      "way/943842368 conductor-transmission-138-kv",
    ]);
    for (const { certainty, doubt, span, load_case, with_id } of conflicts) {
      // Heights and sags are not in the data.
      expect(certainty).not.toBe("confirmed");
      const how = with_id === "way/1426850194" ? "estimated" : "assumed";
      expect(doubt).toContain(`height of the conductor is ${how}`);
      expect(String(span).startsWith(`${with_id}/`)).toBe(true);
      expect(["still", "maximum-temperature", "wind-6-psf"]).toContain(load_case);
    }
    // Storm wind is a load case of the transmission profile's own rules alone.
    const windy = conflicts.filter(({ load_case }) => load_case === "wind-6-psf");
    expect(windy.length).toBeGreaterThan(0);
    expect(windy.every(({ with_id }) => with_id === "way/943842368")).toBe(true);
  });

  it("take the height of a pole that is given as a point", () => {
    const line = properties("surroundings.geojson").find(({ id }) => id === "way/1426850194")!;
    expect([line.height_m, String(line.height_source).slice(0, 9)]).toEqual([11, "estimated"]);
    expect(properties("surroundings.geojson").find(({ id }) => id === "pole")!.height_m).toBe(11);
  });

  it("add up, span by span, to the plan's conflicts", () => {
    const spans = rows("spans.csv");
    // 17 + 12 + 6 + 1 pieces between the supports of the four lines.
    expect(spans.length).toBe(36);
    const sum = (column: string): number => spans.reduce((total, row) => total + Number(row[column]), 0);
    const conflicts = properties("conflicts.geojson").filter(({ kind }) => kind === "conductor");
    expect(sum("confirmed") + sum("probable") + sum("possible")).toBe(conflicts.length);
    expect(sum("strike_trees")).toBeGreaterThanOrEqual(
      properties("trees.geojson").filter(({ bough_strike }) => bough_strike !== null).length,
    );
    for (const row of spans.filter(({ least_gap_m }) => least_gap_m !== "")) {
      const measured = conflicts.filter(({ span }) => span === row.span).map(({ measured_m }) => Number(measured_m));
      for (const gap of measured) expect(gap).toBeGreaterThanOrEqual(Number(row.least_gap_m));
    }
    const longest = spans.find(({ span }) => span === "way/943842368/1")!;
    expect([longest.voltage_v, longest.rule, longest.circuit]).toEqual(["132000", "conductor-transmission-138-kv", ""]);
    expect(Number(longest.length_m)).toBeGreaterThan(150);
  });

  it("come back from the plan's files as they went in", async () => {
    const again = await openPlan(memorySource(files));
    const { spanTable } = await import("../../../src/core/plan/span-table.ts");
    const table = spanTable(again.plan);
    const written = readCsv(text("spans.csv"));
    expect([table.header, ...table.rows].map((row) => row.map((cell) => (cell === null ? "" : String(cell))))).toEqual(
      written,
    );
  });
});
