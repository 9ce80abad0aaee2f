import type { TaperKind, TrafficCase, TrafficControl } from "../core/model/zone.ts";

/** Words of a zone's traffic control. */
export interface TrafficWords {
  readonly sketch: string;
  readonly typicalCase: string;
  readonly cases: Readonly<Record<TrafficCase, string>>;
  readonly tapers: Readonly<Record<TaperKind, string>>;
  readonly duration: string;
  readonly durations: Readonly<Record<TrafficControl["duration"], string>>;
  readonly setUps: string;
  readonly buffer: string;
  readonly workSpace: string;
  readonly devices: string;
  readonly flaggers: string;
  readonly walkway: string;
  readonly walkDetour: string;
}

export const TRAFFIC_WORDS: TrafficWords = {
  sketch: "Sketch of one set-up of the closure",
  typicalCase: "Typical case",
  cases: {
    "off-road": "off the road",
    "beside-road": "beside the road",
    shoulder: "on the shoulder",
    "parking-lane": "in the parking lane",
    flaggers: "one lane for both ways, flaggers",
    merge: "lane closed, traffic merges",
    "one-way-closed": "the only lane closed",
  },
  tapers: {
    merging: "Merging taper",
    shifting: "Shifting taper",
    shoulder: "Shoulder taper",
    "one-lane-two-way": "One-lane taper",
    downstream: "Downstream taper",
  },
  duration: "Duration",
  durations: { "short-duration": "up to an hour in one place", "short-term": "over an hour, by day" },
  setUps: "Set-ups",
  buffer: "Buffer",
  workSpace: "Work space, up to",
  devices: "Cones or drums",
  flaggers: "Flaggers",
  walkway: "Walk",
  walkDetour: "closed, detour as accessible as the walk",
};
