import type { FeatureCollection, Geometry } from "geojson";
import type { ConflictRecord, TreeSetting } from "../model/conflict.ts";
import type { Finding } from "../model/finding.ts";
import type { InputFile, Plan, ZoneOptions } from "../model/plan.ts";
import type { Prescription } from "../model/prescription.ts";
import type { ConflictKind } from "../model/terms.ts";
import type { Tree } from "../model/trees.ts";
import type { IsoDate } from "../units/calendar.ts";
import { changesOf } from "./carry/manifest-changes.ts";
import { PLAN_FORMAT, type PlanManifest } from "./plan-manifest.ts";
import { conflictOf, sightAreasOf, surroundingOf, zoneOf } from "./read-records.ts";

/** One line of `prescriptions.jsonl`: the tree as it was measured, what stands around it, and what it gets. */
export interface PrescriptionLine {
  readonly tree: Tree;
  readonly setting: TreeSetting;
  readonly prescription: Prescription;
}

/** The texts of a revision that make a plan again; findings come as a list because CSV is not the core's business. */
export interface PlanTexts {
  readonly manifest: string;
  /** The text, or what its lines say where it is longer than a text can be. */
  readonly prescriptions: string | readonly PrescriptionLine[];
  /** The text, or its conflicts, for the same reason. */
  readonly conflicts: string | readonly ConflictRecord[];
  readonly surroundings: string;
  readonly sight: string;
  readonly zones: string;
  readonly findings: readonly Finding[];
}

/** The plan a revision's files hold. Throws SyntaxError on broken JSON and RangeError on a newer format. */
export function readPlan(texts: PlanTexts): Plan {
  const manifest = JSON.parse(texts.manifest) as PlanManifest;
  if (!(manifest.format <= PLAN_FORMAT)) {
    throw new RangeError(
      `Expected a plan of format ${PLAN_FORMAT} or older, got ${String(manifest.format)}: use a newer Boughline`,
    );
  }
  const lines =
    typeof texts.prescriptions === "string"
      ? texts.prescriptions
          .split("\n")
          .filter((line) => line !== "")
          .map((line) => JSON.parse(line) as PrescriptionLine)
      : texts.prescriptions;
  const trees = lines.map((line) => line.tree);
  const changes = changesOf((manifest as Partial<PlanManifest>).changes);
  const rowOfTree = new Map(trees.map((tree, row) => [tree.id, row]));
  return {
    planId: manifest.plan,
    revision: manifest.revision,
    options: {
      asOf: manifest.as_of as IsoDate,
      units: manifest.units,
      drive: manifest.drive,
      place: {
        hardinessZone: manifest.place.hardiness_zone,
        region: manifest.place.region,
        ...(manifest.place.climate == null ? {} : { climate: manifest.place.climate }),
      },
      ...zoningOf(manifest),
    },
    standardId: manifest.standard,
    inputs: manifest.inputs as InputFile[],
    trees,
    surroundings: features(texts.surroundings).map(surroundingOf),
    sight: sightAreasOf(features(texts.sight)),
    conflicts:
      typeof texts.conflicts === "string"
        ? features(texts.conflicts).map((feature) => conflictOf(feature, rowOfTree))
        : texts.conflicts,
    prescriptions: lines.map((line) => line.prescription),
    settings: lines.map((line) => line.setting),
    zones: features(texts.zones).map(zoneOf),
    findings: texts.findings,
    notChecked: manifest.not_checked as ConflictKind[],
    ...(changes === null ? {} : { changes }),
  };
}

/** What zones were made for; empty where it is the standard's, and in plans of an earlier version. */
function zoningOf({ zoning }: Partial<PlanManifest>): { zoning?: ZoneOptions } {
  if (zoning === undefined) return {};
  const { crew_hours: crewHours, people, lift } = zoning;
  const given: ZoneOptions = {
    ...(crewHours === null ? {} : { crewHours }),
    ...(Object.keys(people).length === 0 ? {} : { people }),
    ...(lift ? {} : { hasLift: false }),
  };
  return Object.keys(given).length === 0 ? {} : { zoning: given };
}

const features = (text: string) => (JSON.parse(text) as FeatureCollection<Geometry | null>).features;
