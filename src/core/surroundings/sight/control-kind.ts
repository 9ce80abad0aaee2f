import { wordOf } from "../read-value.ts";

/** Words beside `stop` or `yield` that make it another thing: a bus stop, a sign that warns of a stop ahead. */
const NOT_A_SIGN = ["bus", "tram", "taxi", "truck", "rest", "ahead", "no"];
/** Words of signals that do not control an intersection. */
const NOT_A_SIGNAL = [
  "pedestrian",
  "ped",
  "crossing",
  "crosswalk",
  "beacon",
  "flashing",
  "flasher",
  "ramp",
  "school",
  "rail",
  "lamp",
  "light",
  "camera",
  "ahead",
  "bicycle",
  "maxspeed",
  "speed",
  "street",
];
const SIGNALS = ["signal", "signals", "semaphore"];

/**
 * Whether a sign's or signal's kind, in words, is one that controls an intersection; null for another thing. R1-1 is the stop sign and R1-2
 * the yield sign in the Manual on Uniform Traffic Control Devices, chapter 2B; `give_way` is OpenStreetMap's word. In the signals layer
 * what is not known to be another thing is a signal.
 */
export function controlKindOf(layer: "signs" | "signals", kind: unknown): "stop" | "yield" | "signal" | null {
  const words = wordOf(kind).split(/[^a-z0-9]/);
  const isLight = words.includes("light") && words.includes("traffic");
  if (words.some((word) => SIGNALS.includes(word)) || isLight) {
    return !isLight && words.some((word) => NOT_A_SIGNAL.includes(word)) ? null : "signal";
  }
  if (!words.some((word) => NOT_A_SIGN.includes(word))) {
    for (const [at, word] of words.entries()) {
      if (word === "stop" || (word === "r1" && words[at + 1] === "1")) return "stop";
      if (word === "yield" || (word === "r1" && words[at + 1] === "2")) return "yield";
      if (word === "give" && words[at + 1] === "way") return "yield";
    }
  }
  if (layer === "signs" || words.some((word) => NOT_A_SIGN.includes(word) || NOT_A_SIGNAL.includes(word))) return null;
  return "signal";
}

/** Whether a stop or yield sign says for whom: OpenStreetMap's `stop=all` and `stop=minor`, or `all-way` and `4-way` in its kind. */
export function scopeOf(kind: unknown, tag: unknown): "all-way" | "minor" | null {
  const words = [...wordOf(kind).split(/[^a-z0-9]/), wordOf(tag)];
  if (words.includes("all") || words.some((word, at) => /^[34]$/.test(word) && words[at + 1] === "way"))
    return "all-way";
  return words.includes("minor") ? "minor" : null;
}
