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
  /** Length in meters of the walk through the trees in order, straight from one to the next. */
  readonly walkM: number;
  readonly hazards: readonly string[];
  readonly closure: Closure;
  /** Work areas and drop zones in longitude and latitude; one part for each stretch of trees near each other. */
  readonly area: MultiPolygon;
}

/** The effect of a zone on traffic. A draft for the road authority, never an approved plan. */
export interface Closure {
  readonly kind: "none" | "shoulder" | "lane" | "walk" | "lane-and-walk";
  readonly roadName: string | null;
  readonly speedKmh: number | null;
  readonly taperM: number | null;
  readonly bufferM: number | null;
  readonly signSpacingM: readonly number[];
  readonly note: string;
}
