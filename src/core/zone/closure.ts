import type { SurroundingFeature } from "../model/surroundings.ts";
import type { Closure } from "../model/zone.ts";
import type { Standard } from "../standard/standard.ts";
import { formatLength } from "../units/format-length.ts";
import { feetFromMeters, KMH_PER_MPH, METERS_PER_FOOT, metersFromFeet } from "../units/length.ts";
import { dropReachM, type Stop } from "./stops.ts";
import { bufferFt, mergingTaperFt, ONE_LANE_TAPER_FT, shoulderTaperFt, signSpacingFt } from "./traffic-control.ts";

/** Work nearer than this to the traveled way needs traffic control even beyond the shoulder (MUTCD 6N.05: 15 ft). */
const BESIDE_ROAD_M = metersFromFeet(15);
/** Width of shoulder that tapers are figured with where nobody gave one: MUTCD counts from 8 ft as a full shoulder. */
const ASSUMED_SHOULDER_FT = 8;

const CONFIRM = "Confirm with the road authority before any work.";

/**
 * The effect on traffic of working on the given stops: a lane where a drop zone reaches the traveled way, a shoulder where work is within 15 ft of
 * it, a walk where a drop zone reaches one. Figures are for the fastest of the roads concerned. Never an approved plan: the note says in two
 * sentences what a crew leader needs, and who confirms it. Where the figures come from is said at their formulas (`traffic-control.ts`).
 */
export function closureOf(
  stops: readonly Stop[],
  roads: ReadonlyMap<string, SurroundingFeature>,
  standard: Standard,
  units: "us" | "metric",
): Closure {
  const lane = fastest(stops.filter((stop) => (stop.setting?.road?.distanceM ?? Infinity) <= dropReachM(stop)));
  const shoulder = fastest(stops.filter((stop) => (stop.setting?.road?.distanceM ?? Infinity) <= BESIDE_ROAD_M));
  const isWalkClosed = stops.some((stop) => (stop.setting?.walkDistanceM ?? Infinity) <= dropReachM(stop));
  const walk = isWalkClosed ? ", with a detour for walkers as accessible as the walk" : "";
  const road = lane ?? shoulder;
  if (road === null) {
    const reason = stops.every((stop) => stop.setting === null)
      ? "Nothing is known of roads and walks near these trees: look before work"
      : `No roadway within ${formatLength(BESIDE_ROAD_M, units)} of the work, as far as the data goes${isWalkClosed ? "; the walk needs a detour as accessible as itself" : ""}`;
    return { ...noClosure(isWalkClosed), note: `${reason}. ${CONFIRM}` };
  }
  const kind = lane === null ? "shoulder" : isWalkClosed ? "lane-and-walk" : "lane";
  const feature = roads.get(road.withId) ?? null;
  if (road.speedKmh === null) {
    const name = road.name ?? "the road";
    return {
      ...noClosure(isWalkClosed),
      kind,
      roadName: road.name,
      note: `Draft: ${CLOSED[kind]}${walk}; the speed of ${name} is unknown, so taper, buffer and signs are not figured. ${CONFIRM}`,
    };
  }
  const speedMph = road.speedKmh / KMH_PER_MPH;
  const taper = taperFor(lane !== null, speedMph, feature, standard);
  const taperM = wholeFeetM(taper.ft);
  const bufferM = metersFromFeet(bufferFt(speedMph));
  return {
    kind,
    roadName: road.name,
    speedKmh: road.speedKmh,
    taperM,
    bufferM,
    signSpacingM: signSpacingFt(feature?.roadClass ?? null, speedMph).map(metersFromFeet),
    note: `Draft: ${taper.words}, taper ${formatLength(taperM, units)}, buffer ${formatLength(bufferM, units)}${walk}. ${CONFIRM}`,
  };
}

const CLOSED = {
  shoulder: "shoulder closed",
  lane: "one lane closed",
  "lane-and-walk": "one lane closed",
} as const;

type Road = NonNullable<NonNullable<Stop["setting"]>["road"]>;

const noClosure = (isWalkClosed: boolean): Omit<Closure, "note"> => ({
  kind: isWalkClosed ? "walk" : "none",
  roadName: null,
  speedKmh: null,
  taperM: null,
  bufferM: null,
  signSpacingM: [],
});

/** The road of the given stops with the highest speed, the first of equals; one of unknown speed only where no speed is known. */
function fastest(stops: readonly Stop[]): Road | null {
  let best: Road | null = null;
  for (const { setting } of stops) {
    const road = setting?.road ?? null;
    if (road !== null && (best === null || (road.speedKmh ?? -1) > (best.speedKmh ?? -1))) best = road;
  }
  return best;
}

function taperFor(
  isLane: boolean,
  speedMph: number,
  feature: SurroundingFeature | null,
  standard: Standard,
): { readonly ft: number; readonly words: string } {
  if (!isLane) return { ft: shoulderTaperFt(ASSUMED_SHOULDER_FT, speedMph), words: "shoulder closed" };
  const lanes = feature?.lanes ?? null;
  if (lanes !== null && lanes >= 4) {
    const laneFt = feetFromMeters(standard.widths[feature?.roadClass ?? "major-arterial"].laneM);
    return { ft: mergingTaperFt(laneFt, speedMph), words: "one lane closed, traffic merging" };
  }
  const unknown = lanes === null ? " (lanes not known, taken as two)" : "";
  return { ft: ONE_LANE_TAPER_FT, words: `one lane for both ways with flaggers${unknown}` };
}

/** Meters of a length in feet rounded half up to whole feet, as the tables print it. */
const wholeFeetM = (ft: number): number => Math.floor(ft + 0.5) * METERS_PER_FOOT;
