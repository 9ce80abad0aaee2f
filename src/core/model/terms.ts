/** The input layers, in the order they are read and reported. */
export const LAYERS = ["trees", "buildings", "roads", "paths", "signs", "signals", "conductors"] as const;
export type Layer = (typeof LAYERS)[number];

/** What a tree can be in conflict with. The order is the order of `bough_conflicts` and of the legend. */
export const CONFLICT_KINDS = [
  "conductor",
  "roadway",
  "bus-route",
  "fire-lane",
  "sight-triangle",
  "curve",
  "sign",
  "signal",
  "walkway",
  "bikeway",
  "building-side",
  "building-roof",
] as const;
export type ConflictKind = (typeof CONFLICT_KINDS)[number];

/** Where a figure comes from, best first. */
export const BASES = ["measured", "estimated", "assumed"] as const;
export type Basis = (typeof BASES)[number];

/** How sure a conflict is at the 90 % level, surest first. */
export const CERTAINTIES = ["confirmed", "probable", "possible"] as const;
export type Certainty = (typeof CERTAINTIES)[number];

/** When the work is wanted, most urgent first. `clear` is only given when every kind could be checked. */
export const URGENCIES = ["now", "next-window", "this-cycle", "watch", "clear"] as const;
export type Urgency = (typeof URGENCIES)[number];

/** Who may do the work, least restricted first. */
export const CREWS = ["ground", "aerial", "line-clearance", "utility"] as const;
export type Crew = (typeof CREWS)[number];

/** What is done to the tree. `refer` is work no rule may prescribe; `none` leaves the tree alone. */
export const REMEDIES = ["shorten", "remove-limb", "lift", "remedial", "structural", "refer", "none"] as const;
export type Remedy = (typeof REMEDIES)[number];
/** The remedies an envelope can admit. */
export type ClearanceRemedy = "shorten" | "remove-limb" | "lift";

/** Breaches with a deadline of their own (standard, `hazards`). */
export const HAZARDS = [
  "vehicle-height",
  "walk-headroom",
  "sign-hidden",
  "signal-hidden",
  "sight-hidden",
  "conductor-minimum",
] as const;
export type Hazard = (typeof HAZARDS)[number];

export const FORMS = ["tree", "conifer", "palm", "shrub", "hedge"] as const;
export type Form = (typeof FORMS)[number];

/** Crown profiles; the formula of each is in `crown/profile.ts`. */
export const HABITS = ["ellipsoid", "dome", "cone", "paraboloid", "vase", "column"] as const;
export type Habit = (typeof HABITS)[number];

export const CONDITIONS = ["good", "fair", "poor", "dead", "unknown"] as const;
export type Condition = (typeof CONDITIONS)[number];

/** Defects an inventory can report; each becomes a remedial or structural task. */
export const DEFECTS = [
  "dead-limb",
  "broken-limb",
  "hanger",
  "diseased-limb",
  "crossing-limb",
  "included-bark",
  "codominant-stem",
  "sucker",
  "water-sprout",
  "stub",
  "decay",
] as const;
export type Defect = (typeof DEFECTS)[number];

export const ZONE_STATES = ["draft", "issued", "under-way", "done"] as const;
export type ZoneState = (typeof ZONE_STATES)[number];

/** Whether a source was read, quoted second-hand, recalled, or is this project's own policy. */
export const KNOWN_HOW = ["read", "second-hand", "memory", "our-policy"] as const;
export type KnownHow = (typeof KNOWN_HOW)[number];

/** For a branch that types prove impossible. */
export function unreachable(value: never): never {
  throw new Error(`Unreachable value: ${JSON.stringify(value)}`);
}
