import type { ArboristWord } from "../../model/word.ts";
import type { IsoDate } from "../../units/calendar.ts";

/** Version of the completion's layout; a reader refuses a newer one. */
export const COMPLETION_VERSION = 1;

export const OUTCOMES = ["done", "partly", "not-done"] as const;
/** `partly` leaves the visit open with what is left; `not-done` leaves it as it was. */
export type Outcome = (typeof OUTCOMES)[number];

/** Why a visit was not done, or not whole; `other` is explained in the note. */
export const NOT_DONE_REASONS = [
  "vehicle-in-the-way",
  "no-access",
  "nest",
  "conductor-too-near",
  "weather",
  "equipment",
  "out-of-time",
  "more-than-planned",
  "tree-gone",
  "not-needed",
  "other",
] as const;
export type NotDoneReason = (typeof NOT_DONE_REASONS)[number];

/** What a crew reports of one zone: the file that the phone page exports and that `record` takes. Every length in meters. */
export interface Completion {
  readonly format: "boughline-completion";
  readonly version: typeof COMPLETION_VERSION;
  /** Version of Boughline that made the packet. */
  readonly appVersion: string;
  readonly planId: string;
  readonly revision: number;
  readonly zoneId: string;
  /** One for each copy of the page on each device: a later file with the same id takes the place of an earlier one. */
  readonly reportId: string;
  /** Date and time in UTC at which the file was made, `2027-03-12T14:05:00Z`. */
  readonly exportedAt: string;
  /** Crew leader or crew. */
  readonly who: string;
  /** Hours of all people together in this zone; null when not said. */
  readonly crewHours: number | null;
  readonly notes: string;
  /** Only visits that something was said about, in order of work. */
  readonly visits: readonly VisitCompletion[];
  readonly addedTrees: readonly AddedTree[];
  readonly hazards: readonly ReportedHazard[];
  /** What was said of trees beside the work: a stop, a note, a measurement; absent where nothing was. */
  readonly words?: readonly ArboristWord[];
}

export interface VisitCompletion {
  readonly visitId: string;
  readonly treeId: string;
  readonly outcome: Outcome;
  /** Null only when done. */
  readonly reason: NotDoneReason | null;
  readonly date: IsoDate;
  readonly who: string;
  /** Height in meters of the lowest live foliage after the work; null when not measured. */
  readonly crownBaseM: number | null;
  /** Free height in meters over the way, measured after the work; null when not measured. */
  readonly headroomM: number | null;
  /** Share of live crown taken, 0 to 1; null when not said. */
  readonly doseShare: number | null;
  readonly notes: string;
  /** File names only; the photos stay where they are. */
  readonly photos: readonly string[];
  readonly recordedAt: string;
}

export interface Place {
  readonly lonDeg: number;
  readonly latDeg: number;
  /** `device`: its position; `map`: pointed at on the page's map. */
  readonly from: "device" | "map";
  /** Radius in meters that the device gave its position with; null for a place on the map. */
  readonly accuracyM: number | null;
}

export interface AddedTree {
  /** Unique in its file. */
  readonly addedId: string;
  /** Null when nobody pointed at it. */
  readonly place: Place | null;
  readonly species: string;
  readonly dbhM: number | null;
  readonly heightM: number | null;
  readonly notes: string;
  readonly photos: readonly string[];
  readonly recordedAt: string;
}

export interface ReportedHazard {
  readonly addedId: string;
  readonly place: Place | null;
  /** The tree it is about, when it is about one of the zone's. */
  readonly treeId: string | null;
  readonly notes: string;
  readonly photos: readonly string[];
  readonly recordedAt: string;
}
