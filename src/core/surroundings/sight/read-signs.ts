import { columnValue } from "../../model/column-map.ts";
import type { SourceFeature } from "../../model/feature.ts";
import { parseDecimal } from "../../units/parse-length.ts";
import { type Gathering, plainFeature } from "../gathering.ts";
import { readLengthM, readTag, readValue, textOf, wordOf } from "../read-value.ts";

/** A sign that controls traffic, as the sight triangles need it. */
export interface StopSign {
  readonly id: string;
  readonly lonDeg: number;
  readonly latDeg: number;
  /** Direction the face looks to, degrees clockwise from north; or which way the traffic it stops runs along its line; or unknown. */
  readonly facing: number | "forward" | "backward" | null;
}

/** Adds signs or signals and answers the stop signs among them. */
export function readSigns(
  gathering: Gathering,
  layer: "signs" | "signals",
  features: readonly SourceFeature[],
): StopSign[] {
  const stops: StopSign[] = [];
  for (const feature of features) {
    if (feature.geometry.type !== "Point") {
      gathering.leaveOutGeometry(feature, `${layer} as Point`);
      continue;
    }
    const id = gathering.idOf(feature);
    const kind = readValue(gathering.columns, layer, "kind", feature, "highway", "traffic_sign");
    const heightM = readLengthM(gathering.columns, layer, "height", feature);
    gathering.features.push({
      ...plainFeature(id, feature, textOf(kind), layer === "signs" ? "sign" : "signal"),
      heightM,
      heightSource: heightM === null ? null : "height",
    });
    if (layer === "signals" || !isStop(kind)) continue;
    const [lonDeg, latDeg] = feature.geometry.coordinates;
    stops.push({ id, lonDeg: lonDeg!, latDeg: latDeg!, facing: facingOf(gathering, feature) });
  }
  return stops;
}

/** Words beside `stop` that make it another thing: a bus stop, a sign that warns of a stop ahead. */
const NOT_A_STOP = ["bus", "tram", "taxi", "truck", "rest", "ahead", "no", "minor"];

/** R1-1 is the stop sign's number in the Manual on Uniform Traffic Control Devices, chapter 2B. */
function isStop(kind: unknown): boolean {
  const words = wordOf(kind).split(/[^a-z0-9]/);
  if (words.some((word) => NOT_A_STOP.includes(word))) return false;
  return words.some((word, at) => word === "stop" || (word === "r1" && words[at + 1] === "1"));
}

const POINTS = ["n", "nne", "ne", "ene", "e", "ese", "se", "sse", "s", "ssw", "sw", "wsw", "w", "wnw", "nw", "nnw"];
const WORDS: ReadonlyMap<string, string> = new Map([
  ["north", "n"],
  ["northeast", "ne"],
  ["east", "e"],
  ["southeast", "se"],
  ["south", "s"],
  ["southwest", "sw"],
  ["west", "w"],
  ["northwest", "nw"],
]);

function facingOf(gathering: Gathering, feature: SourceFeature): StopSign["facing"] {
  const given = columnValue(gathering.columns, "signs", "facing", feature.properties) ?? readTag(feature, "direction");
  if (typeof given === "number") return Number.isFinite(given) ? ((given % 360) + 360) % 360 : null;
  const word = wordOf(given);
  if (word === "forward" || word === "backward") return word;
  const point = POINTS.indexOf(WORDS.get(word) ?? word);
  if (point >= 0) return point * 22.5;
  const degrees = parseDecimal(word);
  return degrees === null ? null : ((degrees % 360) + 360) % 360;
}
