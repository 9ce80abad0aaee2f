import { wordOf } from "../../read-value.ts";
import type { ControlSign } from "../read-signs.ts";

/** What a face tells the driver, as far as it decides from where it must be seen. */
export type FaceKind = "stop" | "yield" | "signal" | "critical" | "other";

/** Words of things in a layer of signs that no driver on the move must read: parking, street names, stops of buses, people on foot and bicycles. */
const NOT_FOR_DRIVERS = [
  "bench",
  "bicycle",
  "bike",
  "bus",
  "camera",
  "circle",
  "crossing",
  "crosswalk",
  "elevator",
  "guidepost",
  "hydrant",
  "lamp",
  "light",
  "milestone",
  "name",
  "park",
  "parking",
  "pedestrian",
  "platform",
  "shelter",
  "street",
  "taxi",
  "trail",
  "tram",
  "tree",
  "walk",
];
/** Series of the Manual on Uniform Traffic Control Devices that are not for drivers on the move: parking, people on foot, street names, services. */
const NOT_FOR_DRIVERS_CODES = ["r7", "r8", "r9", "d3", "d4", "d9", "d11"];
/** Words that say DO NOT ENTER, WRONG WAY, ONE WAY, and the crossbuck at a railroad. */
const CRITICAL_WORDS = [
  ["do", "not", "enter"],
  ["no", "entry"],
  ["wrong", "way"],
  ["one", "way"],
  ["oneway"],
  ["crossbuck"],
  ["railroad", "crossing"],
];

/**
 * What kind of face a sign or signal has, from its kind in words or its code in the Manual on Uniform Traffic Control Devices; null where it is
 * none that drivers on the move must see. Critical are signs that may ask for a stop (FHWA-SA-07-018): STOP, YIELD, ONE WAY, DO NOT ENTER, WRONG
 * WAY, R1 and R5-1 and R6-1 and R6-2 and R15-1 of the manual. Codes of other countries are not read as its own; a kind that is not
 * known is another sign.
 */
export function faceKindOf(
  layer: "signs" | "signals",
  kind: unknown,
  control: ControlSign["kind"] | null,
): FaceKind | null {
  if (control !== null) return control;
  if (layer === "signals") return null;
  const word = wordOf(kind);
  const words = word.split(/[^a-z0-9]+/).filter((one) => one !== "");
  if (CRITICAL_WORDS.some((said) => holds(words, said))) return "critical";
  const code = codeOf(word);
  if (code !== null) {
    const [series, number] = code;
    if (NOT_FOR_DRIVERS_CODES.includes(series)) return null;
    const isCritical =
      series === "r1" || ((series === "r5" || series === "r15") && number === 1) || (series === "r6" && number <= 2);
    return isCritical ? "critical" : "other";
  }
  return words.some((one) => NOT_FOR_DRIVERS.includes(one)) ? null : "other";
}

/** Series and number of a code such as `R5-1a` or `US:W3-1`; null for codes of other countries and for words. */
function codeOf(word: string): readonly [series: string, number: number] | null {
  const match = /(?:^|[^a-z0-9:])(?:us:)?([a-z]\d{1,2})-(\d{1,2})/.exec(word);
  return match === null ? null : [match[1]!, Number(match[2])];
}

const holds = (words: readonly string[], said: readonly string[]): boolean =>
  words.some((_, at) => said.every((one, step) => words[at + step] === one));
