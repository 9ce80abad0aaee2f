import type { MultiPolygon } from "geojson";
import type { IsoDate } from "../units/calendar.ts";
import type { Crew, Urgency, ZoneState } from "./terms.ts";

/** A day's work for one crew. */
export interface Zone {
  /** Stable: survives a re-run as long as its first tree stays in it. */
  readonly zoneId: string;
  readonly name: string;
  readonly state: ZoneState;
  readonly crew: Crew;
  /** Visits in order of work. */
  readonly visitIds: readonly string[];
  /** Their trees in the same order. */
  readonly treeIds: readonly string[];
  readonly hours: number;
  readonly windowStart: IsoDate;
  readonly windowEnd: IsoDate;
  readonly due: IsoDate;
  readonly urgency: Urgency;
  readonly streets: readonly string[];
  /** Length in meters of the walk through the trees in order: along streets, straight where trees are near each other or off the streets. */
  readonly walkM: number;
  readonly hazards: readonly string[];
  readonly closure: Closure;
  /** Work areas and drop zones in longitude and latitude; one part for each stretch of trees near each other. */
  readonly area: MultiPolygon;
  /** Nothing moves in or out, neither by an edit nor when zones are made again, until it is unlocked. Absent: not locked. */
  readonly isLocked?: boolean;
  /** Its trees were chosen by hand: making zones again moves none of them, unless it makes all drafts anew. Absent: they were not. */
  readonly isByHand?: boolean;
  /** Its order of work was set by hand and is kept. Absent: the order is searched for. */
  readonly isHandOrdered?: boolean;
  /** Day the work is planned for; absent or null while none is set. */
  readonly plannedOn?: IsoDate | null;
  /** Dates asked for within those its visits allow; absent or null for all of these. */
  readonly askedWindow?: AskedWindow | null;
}

/** First and last date asked for, both inclusive. */
export interface AskedWindow {
  readonly start: IsoDate;
  readonly end: IsoDate;
}

/** Typical cases of traffic control for work beside and over a road. */
export const TRAFFIC_CASES = [
  "off-road",
  "beside-road",
  "shoulder",
  "parking-lane",
  "flaggers",
  "merge",
  "one-way-closed",
] as const;
export type TrafficCase = (typeof TRAFFIC_CASES)[number];

export const TAPER_KINDS = ["merging", "shifting", "shoulder", "one-lane-two-way", "downstream"] as const;
export type TaperKind = (typeof TAPER_KINDS)[number];

/** A row of devices that leads traffic past a closure. */
export interface Taper {
  readonly kind: TaperKind;
  readonly lengthM: number;
  readonly devices: number;
}

/** How one set-up of a closure is laid out. A draft of figures for the road authority. */
export interface TrafficControl {
  readonly caseId: TrafficCase;
  /** The manual's typical application, for example `TA-10`; null where none was found. */
  readonly application: string | null;
  /** `short-duration`: up to an hour in one place; `short-term`: longer, within one daylight period. */
  readonly duration: "short-duration" | "short-term";
  /** How often the closure is set up in the zone. */
  readonly setUps: number;
  /** Lanes of both directions together, two where they are not recorded. */
  readonly lanes: number;
  readonly isOneway: boolean;
  readonly laneM: number;
  /** Width in meters of the parking lane or shoulder on the side of the work, as far as known; 0 for none. */
  readonly sideRoomM: number;
  /** Whether a lift or truck stands on the road beside the tree. */
  readonly hasVehicle: boolean;
  /** Length in meters of the work space along the road: the widest drop zone. */
  readonly workM: number;
  readonly tapers: readonly Taper[];
  /** Devices along buffer and work space. */
  readonly tangentDevices: number;
  readonly taperSpacingM: number | null;
  readonly tangentSpacingM: number | null;
  /** Least height of cones by day, meters; null without a speed. */
  readonly coneHeightM: number | null;
  readonly flaggers: number;
  /** From how far drivers must see a flagger, meters; null where there is none or no speed is known. */
  readonly flaggerSightM: number | null;
  /** What the advance signs say, nearest to the work first, as many as `signSpacingM` has distances. */
  readonly signs: readonly string[];
  /** Directions from which traffic meets the signs. */
  readonly approaches: 1 | 2;
  readonly isWalkClosed: boolean;
  /** What was assumed, a sentence each. */
  readonly assumptions: readonly string[];
}

/** The effect of a zone on traffic. A draft for the road authority, never an approved plan. */
export interface Closure {
  readonly kind: "none" | "shoulder" | "parking-lane" | "lane" | "walk" | "lane-and-walk";
  readonly roadName: string | null;
  readonly speedKmh: number | null;
  readonly taperM: number | null;
  readonly bufferM: number | null;
  readonly signSpacingM: readonly number[];
  readonly note: string;
  /** Layout of one set-up; null off the roads, absent in plans of an earlier version. */
  readonly control?: TrafficControl | null;
}
