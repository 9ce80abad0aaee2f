import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import type { Point, Polygon } from "geojson";
import { loadFonts } from "../../src/cli/fonts.ts";
import { findConflicts } from "../../src/core/conflict/find-conflicts.ts";
import { crownOf } from "../../src/core/crown/crown.ts";
import { unionDose } from "../../src/core/crown/dose.ts";
import { guessColumnMap } from "../../src/core/inventory/guess-columns.ts";
import { readTrees } from "../../src/core/inventory/read-trees.ts";
import type { SourceFeature } from "../../src/core/model/feature.ts";
import type { Plan } from "../../src/core/model/plan.ts";
import { treeTable } from "../../src/core/model/tree-table.ts";
import type { Zone } from "../../src/core/model/zone.ts";
import { prescribe } from "../../src/core/prescription/prescribe.ts";
import { schedule } from "../../src/core/schedule/schedule.ts";
import { usCommonSource } from "../../src/core/standard/parse-standard.ts";
import { type ResolvedStandard, resolveStandard } from "../../src/core/standard/resolve-standard.ts";
import { buildSurroundings } from "../../src/core/surroundings/build-surroundings.ts";
import { isoDate } from "../../src/core/units/calendar.ts";
import { buildZones } from "../../src/core/zone/build-zones.ts";
import { readGeoJson } from "../../src/formats/geojson/read-geojson.ts";
import { buildPacket } from "../../src/formats/packet/build-packet.ts";
import { OWN_JOIN, PROJECTING } from "./goals.ts";
import { joinByGeos } from "./join-by-geos.ts";
import { type JoinInput, joinByOwnIndex } from "./join-by-own-index.ts";
import { joinByTurf } from "./join-by-turf.ts";
import { projectedJoin } from "./join-outside.ts";
import type { CityFiles } from "./make-city.ts";

/** A piece of work to be measured in this process. */
export interface Stage {
  readonly name: string;
  /** How often it would have to run for the whole city; 1 but for a subset. */
  readonly times: number;
  readonly work: () => number | Promise<number>;
}

const OPTIONS = {
  asOf: isoDate("2026-11-02"),
  units: "us",
  drive: "right",
  place: { region: "US-WI", hardinessZone: 5 },
} as const;
const TURF_TREES = 5;
const LAYERS = ["trees", "buildings", "roads"] as const;
/** Trees of the packet that is built. */
const PACKET_TREES = 60;

/** Stages measured, and the places and outlines of the city, for joins by other programs. */
export interface Stages {
  readonly stages: readonly Stage[];
  readonly join: JoinInput;
  /** Meters that every join of it should give. */
  readonly sumM: number;
}

/**
 * Stages of a run on a city, each on what the one before it made, and the joins they are compared with; `unrounded` is the same city with coordinates of 15 decimals. Each `work`
 * returns a checksum.
 */
export async function stagesOf(files: CityFiles, unrounded: CityFiles): Promise<Stages> {
  const { standard } = resolveStandard(usCommonSource) as ResolvedStandard;
  const bytes = {
    trees: readFileSync(files.trees),
    buildings: readFileSync(files.buildings),
    roads: readFileSync(files.roads),
  };
  const unroundedBytes = LAYERS.map((layer) => readFileSync(unrounded[layer]));
  const featuresOf = (layer: keyof CityFiles): readonly SourceFeature[] =>
    readGeoJson(bytes[layer], { layer, file: layer }).features;
  const layers = { trees: featuresOf("trees"), buildings: featuresOf("buildings"), roads: featuresOf("roads") };
  const columns = Object.assign(
    {},
    ...Object.entries(layers).map(([layer, features]) => {
      const names = [...new Set(features.flatMap(({ properties }) => Object.keys(properties)))];
      return guessColumnMap(layer as keyof CityFiles, names, features).columns;
    }),
  );
  const { trees } = readTrees(layers.trees as SourceFeature<Point>[], columns, standard, OPTIONS);
  const table = treeTable(trees);
  const { surroundings } = buildSurroundings(layers, columns, standard, OPTIONS);
  const { conflicts, settings, sight, notChecked } = findConflicts(table, surroundings, standard, OPTIONS, new Map());
  const drafts = prescribe(trees, conflicts, settings, standard, OPTIONS);
  const prescriptions = schedule(trees, drafts, conflicts, settings, standard, OPTIONS);
  const plan: Plan = {
    ...{ planId: "bench", revision: 1, options: OPTIONS, standardId: standard.id, inputs: [], zones: [], findings: [] },
    ...{ trees, surroundings: surroundings.features, sight, conflicts, prescriptions, settings, notChecked },
  };
  const join: JoinInput = {
    trees: layers.trees.map(({ geometry }) => (geometry as Point).coordinates),
    buildings: layers.buildings.map(({ geometry }) => (geometry as Polygon).coordinates[0]!),
  };
  const geos = await joinByGeos(join);
  const sumM = joinByOwnIndex(join);
  const apartM = Math.abs(sumM - geos.run());
  // The sums agree where every distance does, to the rounding of coordinates of five million meters.
  if (!(apartM < 1e-6 * join.trees.length)) throw new Error(`The joins differ by ${apartM} m`);
  const few = { ...join, trees: join.trees.slice(0, TURF_TREES) };
  const once = (name: string, work: Stage["work"]): Stage => ({ name, times: 1, work });
  const zones = buildZones(plan, standard);
  const places = (zone: Zone): number => Math.abs(zone.visitIds.length - PACKET_TREES);
  const zone = zones.reduce((best, one) => (places(one) < places(best) ? one : best));
  const zoned = { ...plan, zones };
  const fonts = await loadFonts();
  const stages = [
    once("read: JSON.parse of the three files", () =>
      Object.values(bytes).reduce((sum, one) => sum + JSON.parse(one.toString()).features.length, 0),
    ),
    once("read: our reader, every feature checked", () =>
      LAYERS.reduce((sum, layer) => sum + featuresOf(layer).length, 0),
    ),
    once("read: JSON.parse, 15 decimals", () =>
      unroundedBytes.reduce((sum, one) => sum + JSON.parse(one.toString()).features.length, 0),
    ),
    once("read: our reader, 15 decimals", () =>
      LAYERS.reduce(
        (sum, layer, at) => sum + readGeoJson(unroundedBytes[at]!, { layer, file: layer }).features.length,
        0,
      ),
    ),
    once(
      "read: SHA-256 of the three files",
      () => Object.values(bytes).map((one) => createHash("sha256").update(one).digest()).length,
    ),
    once(
      "read: trees from columns",
      () => readTrees(layers.trees as SourceFeature<Point>[], columns, standard, OPTIONS).trees.length,
    ),
    once(
      "index: surroundings placed and indexed",
      () => buildSurroundings(layers, columns, standard, OPTIONS).surroundings.envelopes.length,
    ),
    once(
      "conflict: all trees",
      () => findConflicts(table, surroundings, standard, OPTIONS, new Map()).conflicts.length,
    ),
    once("dose: one of each conflict's region", () =>
      conflicts.reduce((sum, { treeRow, region }) => sum + unionDose(crownOf(trees[treeRow]!), [region]).leafShare, 0),
    ),
    once("prescribe: all trees", () => prescribe(trees, conflicts, settings, standard, OPTIONS).length),
    once("schedule: all trees", () => schedule(trees, drafts, conflicts, settings, standard, OPTIONS).length),
    once("zone: all visits", () => buildZones(plan, standard).length),
    once(`packet: of a zone of ${zone.visitIds.length} visits`, async () => {
      const { sheets } = await buildPacket(zoned, zone, standard, fonts, { paper: "letter" });
      return sheets.length;
    }),
    once(OWN_JOIN, () => joinByOwnIndex(join)),
    once(PROJECTING, () => projectedJoin(join).trees.length),
    once("join: GEOS in wasm, STRtree and distance, shapes ready", () => geos.run()),
    { name: "join: Turf without index", times: join.trees.length / few.trees.length, work: () => joinByTurf(few) },
  ];
  return { stages, join, sumM };
}
