import type { RoadClass, SurroundingFeature } from "../model/surroundings.ts";
import type { Taper, TaperKind, TrafficCase, TrafficControl } from "../model/zone.ts";
import { feetFromMeters, METERS_PER_FOOT, metersFromFeet, metersFromInches } from "../units/length.ts";
import type { RoadUse } from "./traffic-case.ts";
import {
  bufferFt,
  coneHeightIn,
  DOWNSTREAM_TAPER_FT,
  deviceCount,
  deviceSpacingFt,
  mergingTaperFt,
  ONE_LANE_TAPER_FT,
  SHORT_TAPER_SPACING_FT,
  shoulderTaperFt,
} from "./traffic-control.ts";

/** Width of shoulder or parking lane that tapers are figured with where nobody gave one: MUTCD counts from 8 ft as a full shoulder. */
const ASSUMED_SIDE_FT = 8;
/** Up to an hour in one place is short duration, longer within one daylight period short-term (MUTCD 6N.01). */
const SHORT_DURATION_H = 1;

/** Typical applications (MUTCD Table 6P-1, second-hand; which fits pruning is our reading). Parking lanes have none of their own. */
const APPLICATIONS: Readonly<Record<TrafficCase, string | null>> = {
  "off-road": null,
  "beside-road": "TA-3",
  shoulder: "TA-3",
  "parking-lane": null,
  flaggers: "TA-10",
  merge: "TA-33",
  "one-way-closed": null,
};

/** Advance signs, nearest to the work first; wordings from memory of the manual, for the road authority to settle. */
const SIGNS: Readonly<Record<TrafficCase, readonly string[]>> = {
  "off-road": [],
  "beside-road": ["Road work ahead"],
  shoulder: ["Road work ahead"],
  "parking-lane": ["Road work ahead"],
  flaggers: ["Flagger ahead", "One lane road ahead", "Road work ahead"],
  merge: ["Lane ends", "Lane closed ahead", "Road work ahead"],
  "one-way-closed": ["Road closed", "Detour ahead", "Road work ahead"],
};

/** What one set-up is laid out from. */
export interface LayoutWork {
  readonly use: RoadUse;
  readonly feature: SurroundingFeature | null;
  readonly roadClass: RoadClass | null;
  /** Null where it is unknown: then nothing that depends on it is figured. */
  readonly speedMph: number | null;
  readonly laneM: number;
  readonly workM: number;
  readonly setUps: number;
  readonly hoursEach: number;
  readonly isWalkClosed: boolean;
}

/** The layout of one set-up: tapers, devices, signs, flaggers, with what was assumed for it. Lengths in whole feet, as the tables print them. */
export function trafficLayout(work: LayoutWork): TrafficControl {
  const { use, feature, speedMph, laneM, workM, setUps, hoursEach, isWalkClosed } = work;
  const { caseId } = use;
  const tapers = speedMph === null ? [] : tapersOf(work, speedMph);
  const [taperFt, tangentFt] = deviceSpacingFt(speedMph ?? 0);
  const hasDevices = speedMph !== null && tapers.length > 0;
  const flaggers = caseId === "flaggers" ? 2 : 0;
  return {
    caseId,
    application: caseId === "shoulder" && hoursEach <= SHORT_DURATION_H ? "TA-4" : APPLICATIONS[caseId],
    duration: hoursEach <= SHORT_DURATION_H ? "short-duration" : "short-term",
    setUps,
    lanes: feature?.lanes ?? 2,
    isOneway: (feature?.across?.oneway ?? 0) !== 0,
    laneM,
    sideRoomM: use.sideRoomM,
    hasVehicle: use.hasVehicle,
    workM,
    tapers,
    tangentDevices: hasDevices ? deviceCount(bufferFt(speedMph) + feetFromMeters(workM), tangentFt) : 0,
    taperSpacingM: hasDevices ? metersFromFeet(caseId === "flaggers" ? SHORT_TAPER_SPACING_FT : taperFt) : null,
    tangentSpacingM: hasDevices ? metersFromFeet(tangentFt) : null,
    coneHeightM: hasDevices ? metersFromInches(coneHeightIn(speedMph)) : null,
    flaggers,
    flaggerSightM: flaggers === 0 || speedMph === null ? null : metersFromFeet(bufferFt(speedMph)),
    signs: SIGNS[caseId],
    approaches: caseId === "flaggers" ? 2 : 1,
    isWalkClosed,
    assumptions: assumptionsOf(work),
  };
}

function tapersOf({ use, laneM }: LayoutWork, speedMph: number): Taper[] {
  const [spacingFt] = deviceSpacingFt(speedMph);
  const taper = (kind: TaperKind, ft: number, apartFt: number): Taper => {
    const wholeFt = Math.floor(ft + 0.5);
    return { kind, lengthM: wholeFt * METERS_PER_FOOT, devices: deviceCount(wholeFt, apartFt) };
  };
  const downstream = taper("downstream", DOWNSTREAM_TAPER_FT, SHORT_TAPER_SPACING_FT);
  switch (use.caseId) {
    case "flaggers":
      return [taper("one-lane-two-way", ONE_LANE_TAPER_FT, SHORT_TAPER_SPACING_FT), downstream];
    case "merge":
      return [taper("merging", mergingTaperFt(feetFromMeters(laneM), speedMph), spacingFt), downstream];
    case "shoulder":
    case "parking-lane": {
      const sideFt = use.sideRoomM > 0 ? feetFromMeters(use.sideRoomM) : ASSUMED_SIDE_FT;
      return [taper("shoulder", shoulderTaperFt(sideFt, speedMph), spacingFt)];
    }
    case "beside-road":
      return [taper("shoulder", shoulderTaperFt(ASSUMED_SIDE_FT, speedMph), spacingFt)];
    case "one-way-closed":
    case "off-road":
      return [];
  }
}

function assumptionsOf({ use, feature, speedMph }: LayoutWork): string[] {
  const { caseId } = use;
  const isLane = caseId === "flaggers" || caseId === "merge" || caseId === "one-way-closed";
  return [
    speedMph === null ? "The speed is not known: tapers, buffer and signs are not figured." : null,
    feature?.speedSource?.startsWith("assumed") === true ? `The speed is ${feature.speedSource}.` : null,
    isLane && (feature?.lanes ?? null) === null ? "The number of lanes is not recorded: two are taken." : null,
    feature?.across === undefined || feature.across.parking.left !== null || feature.across.shoulderM.left !== null
      ? null
      : "No parking lane or shoulder is recorded: none is counted on.",
    caseId === "beside-road"
      ? "Planned as a shoulder closed; beyond a shoulder, or behind a curb, one sign may do (TA-1)."
      : null,
    use.hasVehicle ? "A lift or truck stands beside the tree; on foot less of the road may be needed." : null,
  ].filter((sentence) => sentence !== null);
}
