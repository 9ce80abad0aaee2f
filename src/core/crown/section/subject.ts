import type { ConflictRecord, TreeSetting } from "../../model/conflict.ts";
import type { Prescription, PruningOption } from "../../model/prescription.ts";
import type { ConflictKind } from "../../model/terms.ts";
import type { Tree } from "../../model/trees.ts";
import type { DisplayUnits } from "../../units/format-length.ts";

/** What a section shows: one tree, the one conflict it looks toward, and what is prescribed. */
export interface SectionSubject {
  readonly tree: Tree;
  /** Null shows the tree alone, seen toward the north with the east on the right. */
  readonly conflict: ConflictRecord | null;
  readonly prescription: Prescription;
  readonly setting: TreeSetting | null;
  /** Width in meters of the way the conflict is with, where known. */
  readonly widthOfThingM?: number;
  /** Height in meters of the building or conductor the conflict is with, where known. */
  readonly heightOfThingM?: number;
  /** Lower edge in meters of a sight window, where known. */
  readonly windowLowM?: number;
}

export interface DrawingOptions {
  readonly units: DisplayUnits;
  readonly widthMm: number;
  readonly heightMm: number;
}

/** What stands at the other end of the section, by how it is drawn. */
export type Thing = "way" | "walk" | "wall" | "roof" | "conductor" | "sight";

const THINGS: Readonly<Record<ConflictKind, Thing>> = {
  conductor: "conductor",
  roadway: "way",
  "bus-route": "way",
  "fire-lane": "way",
  "sight-triangle": "sight",
  curve: "sight",
  sign: "sight",
  signal: "sight",
  walkway: "walk",
  bikeway: "walk",
  "building-side": "wall",
  "building-roof": "roof",
};

export const thingOf = (kind: ConflictKind): Thing => THINGS[kind];

const NAMES: Readonly<Record<ConflictKind, string>> = {
  conductor: "conductor",
  roadway: "roadway",
  "bus-route": "bus route",
  "fire-lane": "fire lane",
  "sight-triangle": "sight triangle",
  curve: "sight line",
  sign: "line to sign",
  signal: "line to signal",
  walkway: "walkway",
  bikeway: "bikeway",
  "building-side": "building wall",
  "building-roof": "building roof",
};

export const kindName = (kind: ConflictKind): string => NAMES[kind];

/** Bearing in degrees that the right-hand side of the section faces. */
export const sectionBearingDeg = (subject: SectionSubject): number => subject.conflict?.bearingDeg ?? 90;

/** The option that is prescribed and cures the conflict shown; null when nothing is cut for it. */
export function prescribedOption(subject: SectionSubject): PruningOption | null {
  const { prescription, conflict } = subject;
  if (prescription.chosen === null || conflict === null) return null;
  const isServed = prescription.tasks.some((task) => task.conflictIds.includes(conflict.conflictId));
  return isServed ? (prescription.options[prescription.chosen] ?? null) : null;
}

/** Height in meters the prescription frees the conflict's thing to; the rule's clear-to height where it names none. */
export function targetHeightM(subject: SectionSubject, conflict: ConflictRecord): number {
  const floorM = conflict.datumM + conflict.clearToM;
  const liftToM = prescribedOption(subject)?.liftToM ?? null;
  return liftToM === null ? floorM : Math.max(floorM, liftToM);
}
