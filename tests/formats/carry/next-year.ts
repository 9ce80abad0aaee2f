import { readFileSync } from "node:fs";
import { LAYERS } from "../../../src/core/model/terms.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import type { EarlierPlan } from "../../../src/formats/carry/earlier-plan.ts";
import { readCsv } from "../../../src/formats/csv.ts";
import { makePlan } from "../../../src/formats/plan/make-plan.ts";
import { type Files, textOf } from "../plan/recorded-town.ts";

/** A tree of the sample town, as its file has it. */
export interface TownTree {
  readonly properties: Record<string, unknown> & { readonly id: string };
  readonly geometry: { readonly type: "Point"; readonly coordinates: readonly [number, number] };
}

const bytesOf = (layer: string): Uint8Array =>
  readFileSync(new URL(`../../../sample-geojson/${layer}.geojson`, import.meta.url));

/** The sample town's first trees. */
export const townTrees = (count: number): TownTree[] =>
  JSON.parse(new TextDecoder().decode(bytesOf("trees"))).features.slice(0, count);

/** What a year brings; what is left out is as in `townPlan`. */
export interface Year {
  readonly trees: readonly TownTree[];
  readonly asOf: string;
  readonly earlier: EarlierPlan;
  readonly standardJson?: unknown;
  /** Features left out of a layer, by their place in it. */
  readonly without?: { readonly layer: string; readonly at: number };
}

/** The next revision of a plan of the town. */
export async function nextYear({ trees, asOf, earlier, standardJson = null, without }: Year): Promise<Files> {
  const { revision } = JSON.parse(new TextDecoder().decode(earlier.files.get("plan.json")));
  const bytesFor = (layer: string): Uint8Array => {
    if (layer === "trees")
      return new TextEncoder().encode(JSON.stringify({ type: "FeatureCollection", features: trees }));
    if (layer !== without?.layer) return bytesOf(layer);
    const all = JSON.parse(new TextDecoder().decode(bytesOf(layer)));
    const features = (all.features as unknown[]).filter((_, at) => at !== without.at);
    return new TextEncoder().encode(JSON.stringify({ ...all, features }));
  };
  const made = await makePlan(
    {
      revision: revision + 1,
      files: LAYERS.map((layer) => ({ layer, name: `${layer}.geojson`, bytes: bytesFor(layer), filter: null })),
      columns: {},
      standardJson,
      options: {
        asOf: isoDate(asOf),
        units: "us",
        drive: "right",
        place: { hardinessZone: 5, region: "US-WI" },
      },
      crs: null,
      withZones: false,
      earlier,
    },
    () => {},
  );
  return made.files;
}

/** Rows of `changes.csv` by tree. */
export function changesOf(files: Files): Map<string, Record<string, string>> {
  const [header = [], ...rows] = readCsv(textOf(files, "changes.csv"));
  return new Map(rows.map((row) => [row[0]!, Object.fromEntries(header.map((name, at) => [name, row[at]!]))] as const));
}

/** How many rows have each value of a column. */
export function tally(files: Files, column: string): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const row of changesOf(files).values()) counts[row[column]!] = (counts[row[column]!] ?? 0) + 1;
  return counts;
}

/** What a plan asks for at each tree, by id: all that a crew or a calendar would see, without words. */
export function askedOf(files: Files): Map<string, string> {
  const lines = textOf(files, "prescriptions.jsonl").trimEnd().split("\n");
  return new Map(
    lines.map((line) => {
      const { tree, prescription } = JSON.parse(line);
      const { urgency, overdue, refer, remedy, visits } = prescription;
      const asked = [
        urgency,
        overdue,
        refer?.code ?? null,
        remedy,
        ...visits.map((visit: Record<string, unknown> & { doseShare: number; tasks: { remedy: string }[] }) => [
          visit.due,
          visit.windowStart,
          visit.windowEnd,
          visit.crew,
          Math.round(visit.doseShare * 1000),
          visit.tasks.map((task) => task.remedy),
        ]),
      ];
      return [tree.id as string, JSON.stringify(asked)] as const;
    }),
  );
}
