import type { SurroundingFeature } from "../model/surroundings.ts";
import { type Closure, TRAFFIC_CASES, type TrafficControl } from "../model/zone.ts";
import type { Standard } from "../standard/standard.ts";
import { formatLength } from "../units/format-length.ts";
import { KMH_PER_MPH, metersFromFeet } from "../units/length.ts";
import { setUpsOf } from "./set-ups.ts";
import { dropReachM, type Stop } from "./stops.ts";
import { BESIDE_ROAD_M, type RoadUse, roadUse } from "./traffic-case.ts";
import { bufferFt, signSpacingFt } from "./traffic-control.ts";
import { trafficLayout } from "./traffic-layout.ts";

const CONFIRM = "Confirm with the road authority before any work.";

/** What a closure is figured with beside the stops. */
export interface ClosureContext {
  readonly roads: ReadonlyMap<string, SurroundingFeature>;
  readonly standard: Standard;
  readonly units: "us" | "metric";
  /** Whether crews off the ground work from a lift beside the tree. Default true. */
  readonly hasLift?: boolean;
  /** Street and side of each stop; null off the streets. Left out, every stop is its own set-up. */
  readonly sides?: readonly (string | null)[];
}

/**
 * The effect on traffic of working on the given stops in their order: the case that takes most of a road, with the figures of the fastest of the
 * roads where it occurs, and a walk closed where a drop zone reaches one. Never an approved plan: the note says in two sentences what a crew leader
 * needs, and who confirms it. Where the figures come from is said at their formulas (`traffic-control.ts`).
 */
export function closureOf(stops: readonly Stop[], context: ClosureContext): Closure {
  const { roads, standard, units } = context;
  const uses = stops.map((stop): Used => {
    const feature = roads.get(stop.setting?.road?.withId ?? "") ?? null;
    return { stop, feature, use: roadUse(stop, feature, context.hasLift ?? true) };
  });
  const isWalkClosed = stops.some((stop) => (stop.setting?.walkDistanceM ?? Infinity) <= dropReachM(stop));
  const walk = isWalkClosed ? ", with a detour for walkers as accessible as the walk" : "";
  const governing = governingUse(uses);
  if (governing === null) {
    const reason = stops.every((stop) => stop.setting === null)
      ? "Nothing is known of roads and walks near these trees: look before work"
      : `No roadway within ${formatLength(BESIDE_ROAD_M, units)} of the work, as far as the data goes${isWalkClosed ? "; the walk needs a detour as accessible as itself" : ""}`;
    return { ...noClosure(isWalkClosed), note: `${reason}. ${CONFIRM}`, control: null };
  }
  const { stop, feature, use } = governing;
  const road = stop.setting!.road!;
  const speedMph = road.speedKmh === null ? null : road.speedKmh / KMH_PER_MPH;
  const same = uses.filter((one) => one.use.caseId === use.caseId);
  const setUps = setUpsOf(
    same.map((one) => one.stop),
    same.map((one) => context.sides?.[stops.indexOf(one.stop)] ?? one.stop.tree.id),
  );
  const control = trafficLayout({
    use,
    feature,
    roadClass: feature?.roadClass ?? null,
    speedMph,
    laneM: feature?.across?.laneM ?? standard.widths[feature?.roadClass ?? "major-arterial"].laneM,
    workM: Math.max(...setUps.map(({ lengthM }) => lengthM)),
    setUps: setUps.length,
    hoursEach: Math.max(...setUps.map(({ hours }) => hours)),
    isWalkClosed,
  });
  const kind = kindOf(use, isWalkClosed);
  if (speedMph === null) {
    const name = road.name ?? "the road";
    const note = `Draft: ${WORDS[use.caseId]}${lanesUnsaid(use, feature)}${walk}; the speed of ${name} is unknown, so taper, buffer and signs are not figured. ${CONFIRM}`;
    return { ...noClosure(isWalkClosed), kind, roadName: road.name, note, control };
  }
  const taperM = control.tapers[0]?.lengthM ?? null;
  const bufferM = metersFromFeet(bufferFt(speedMph));
  const taper = taperM === null ? "" : `, taper ${formatLength(taperM, units)}, buffer ${formatLength(bufferM, units)}`;
  return {
    kind,
    roadName: road.name,
    speedKmh: road.speedKmh,
    taperM,
    bufferM,
    signSpacingM: signSpacingFt(feature?.roadClass ?? null, speedMph).map(metersFromFeet),
    note: `Draft: ${WORDS[use.caseId]}${lanesUnsaid(use, feature)}${taper}${walk}. ${CONFIRM}`,
    control,
  };
}

interface Used {
  readonly stop: Stop;
  readonly feature: SurroundingFeature | null;
  readonly use: RoadUse;
}

const WORDS: Readonly<Record<TrafficControl["caseId"], string>> = {
  "off-road": "no closure",
  "beside-road": "shoulder closed",
  shoulder: "shoulder closed",
  "parking-lane": "parking lane closed",
  flaggers: "one lane for both ways with flaggers",
  merge: "one lane closed, traffic merging",
  "one-way-closed": "the only lane closed, traffic led around",
};

const lanesUnsaid = ({ caseId }: RoadUse, feature: SurroundingFeature | null): string =>
  caseId === "flaggers" && (feature?.lanes ?? null) === null ? " (lanes not known, taken as two)" : "";

function kindOf({ caseId }: RoadUse, isWalkClosed: boolean): Closure["kind"] {
  if (caseId === "parking-lane") return "parking-lane";
  if (caseId === "shoulder" || caseId === "beside-road") return "shoulder";
  return isWalkClosed ? "lane-and-walk" : "lane";
}

const noClosure = (isWalkClosed: boolean): Omit<Closure, "note"> => ({
  kind: isWalkClosed ? "walk" : "none",
  roadName: null,
  speedKmh: null,
  taperM: null,
  bufferM: null,
  signSpacingM: [],
});

/** The use that takes a lane before one that takes less, then the fastest road, the first of equals; null where no road is concerned. */
function governingUse(uses: readonly Used[]): Used | null {
  const rank = ({ use, stop }: Used): readonly [number, number] => [
    LANE_CASES.includes(use.caseId) ? TRAFFIC_CASES.length : TRAFFIC_CASES.indexOf(use.caseId),
    stop.setting?.road?.speedKmh ?? -1,
  ];
  let best: Used | null = null;
  for (const one of uses) {
    if (one.use.caseId === "off-road") continue;
    const [taken, speed] = rank(one);
    const [bestTaken, bestSpeed] = best === null ? [-1, -1] : rank(best);
    if (taken > bestTaken || (taken === bestTaken && speed > bestSpeed)) best = one;
  }
  return best;
}

const LANE_CASES: readonly TrafficControl["caseId"][] = ["flaggers", "merge", "one-way-closed"];
