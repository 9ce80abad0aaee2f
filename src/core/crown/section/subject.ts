import type { ConflictRecord, TreeSetting } from "../../model/conflict.ts";
import type { Prescription, Task } from "../../model/prescription.ts";
import type { ClearanceRemedy, ConflictKind } from "../../model/terms.ts";
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
  /** Height in meters of the building, or of the conductor's attachment, where known. */
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

/** Where the trunk's foot stands along that bearing, meters from the crown's axis; 0 under it, negative behind it. */
export function footAlongM(subject: SectionSubject): number {
  const bearing = (sectionBearingDeg(subject) * Math.PI) / 180;
  const { crownEastM = 0, crownNorthM = 0 } = subject.tree;
  return crownEastM === 0 && crownNorthM === 0
    ? 0
    : -(crownEastM * Math.sin(bearing) + crownNorthM * Math.cos(bearing));
}

/** The task that works on the conflict shown; null when nothing is cut for it. */
export function servingTask(subject: SectionSubject): Task | null {
  const { prescription, conflict } = subject;
  if (conflict === null) return null;
  return prescription.tasks.find(({ conflictIds }) => conflictIds.includes(conflict.conflictId)) ?? null;
}

/**
 * How the crown is cut back from the thing shown: the task's remedy where the rule admits it, else shortening, else whole limbs.
 * Null when nothing is cut for it.
 */
export function remedyShown(subject: SectionSubject): ClearanceRemedy | null {
  const { conflict } = subject;
  const remedy = servingTask(subject)?.remedy;
  if (conflict === null || (remedy !== "shorten" && remedy !== "remove-limb" && remedy !== "lift")) return null;
  if (conflict.admits.includes(remedy)) return remedy;
  return conflict.admits.includes("shorten") ? "shorten" : "remove-limb";
}

/** Free distance in meters that the work leaves to a wall or line; the rule's clear-to where nothing is cut. */
export const targetDistanceM = (subject: SectionSubject, conflict: ConflictRecord): number =>
  servingTask(subject)?.targetM ?? conflict.clearToM;

/**
 * Height in meters the prescription frees the conflict's thing to; the rule's clear-to height where it names none or one above the
 * tree's top, where no branch is.
 */
export function targetHeightM(subject: SectionSubject, conflict: ConflictRecord): number {
  const belowM = servingTask(subject)?.belowM ?? 0;
  const floorM = conflict.datumM + conflict.clearToM;
  return belowM > subject.tree.height.valueM ? floorM : Math.max(floorM, belowM);
}
