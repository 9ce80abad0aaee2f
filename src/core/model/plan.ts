import type { IsoDate } from "../units/calendar.ts";
import type { ConflictRecord, TreeSetting } from "./conflict.ts";
import type { Finding } from "./finding.ts";
import type { ChangeTotals } from "./plan-change.ts";
import type { Prescription } from "./prescription.ts";
import type { SightArea, SurroundingFeature } from "./surroundings.ts";
import type { ConflictKind, Crew, Layer } from "./terms.ts";
import type { Tree } from "./trees.ts";
import type { Zone } from "./zone.ts";

/** Options of a run that change its result. `asOf` is required: the core has no clock. */
export interface PlanOptions {
  readonly asOf: IsoDate;
  /** Units of sentences and drawings; files are always in meters. */
  readonly units: "us" | "metric";
  readonly drive: "right" | "left";
  readonly place: Place;
  /** What zones were made for, where it is not the standard's. */
  readonly zoning?: ZoneOptions;
}

/** What a crew has to work with; what is left out is the standard's. */
export interface ZoneOptions {
  /** Hours of work in a crew-day, breaks and the drive from the yard not counted. */
  readonly crewHours?: number;
  /** People in a crew of each kind. */
  readonly people?: Partial<Readonly<Record<Crew, number>>>;
  /** Whether aerial and line-clearance crews work from a lift, which then stands beside the tree; without one they climb. Default true. */
  readonly hasLift?: boolean;
}

export interface Place {
  readonly hardinessZone: number | null;
  /** ISO 3166 code such as `US` or `US-WI`; null when unknown. */
  readonly region: string | null;
  /** Region of the allometry whose climate is likest, for example `PacfNW`; null or absent where the region above decides. */
  readonly climate?: string | null;
}

export interface InputFile {
  readonly layer: Layer;
  readonly file: string;
  readonly filter: string | null;
  readonly sha256: string;
  readonly bytes: number;
  readonly features: number;
  readonly used: number;
  readonly setAside: number;
}

/**
 * A plan as it is kept: what the files of a revision hold, and all that zones, packets, the map and the drawings need.
 * A run makes one; reading a plan folder makes an equal one.
 */
export interface Plan {
  readonly planId: string;
  readonly revision: number;
  readonly options: PlanOptions;
  readonly standardId: string;
  readonly inputs: readonly InputFile[];
  /** All trees of the plan, in input order. */
  readonly trees: readonly Tree[];
  readonly surroundings: readonly SurroundingFeature[];
  /** Triangles, curves and wedges to faces. */
  readonly sight: readonly SightArea[];
  /** In tree order, then by kind, then by the other feature's order. */
  readonly conflicts: readonly ConflictRecord[];
  /** One per tree, in tree order. */
  readonly prescriptions: readonly Prescription[];
  readonly settings: readonly TreeSetting[];
  readonly zones: readonly Zone[];
  readonly findings: readonly Finding[];
  /** Kinds no tree could be checked for, because a layer is missing or this version does not measure them. */
  readonly notChecked: readonly ConflictKind[];
  /** How it was carried on from an earlier revision, and what changed; absent or null for a plan that was made by itself. */
  readonly changes?: ChangeTotals | null;
}

/** An input feature that could not be used, by its place in its layer, with the finding that says why. */
export interface SetAside {
  readonly layer: Layer;
  readonly ordinal: number;
  readonly finding: Finding;
}
