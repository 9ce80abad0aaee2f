import type { Drawing } from "../../crown/drawing.ts";
import type { Closure, Taper, TrafficCase, TrafficControl } from "../../model/zone.ts";
import { type DisplayUnits, formatLength } from "../../units/format-length.ts";
import { KMH_PER_MPH } from "../../units/length.ts";
import { CLOSURE_WORDS, capitalized } from "../packet-words.ts";
import { closureSketch } from "./closure-sketch.ts";

/** A zone's traffic control as the packet says it: a draft of figures for the road authority. */
export interface TrafficPage {
  readonly title: string;
  /** Road with speed and lanes; null where no road is concerned. */
  readonly road: string | null;
  /** What and how long, in two sentences, with who confirms it. */
  readonly note: string;
  /** One set-up to scale; null where no road is closed or its speed is not known. */
  readonly sketch: Drawing | null;
  /** The same, narrow, with names only. */
  readonly narrowSketch: Drawing | null;
  readonly facts: readonly (readonly [label: string, value: string])[];
  /** What the figures assume, a sentence each. */
  readonly assumptions: readonly string[];
}

/** Widths of the sketches in millimeters: the type area of A4, and a width at which 2.3 mm letters come to 12 px on a phone. */
const SKETCH_MM = 182;
const NARROW_SKETCH_MM = 66;

const CASE_WORDS: Readonly<Record<TrafficCase, string>> = {
  "off-road": "no closure of a road",
  "beside-road": "work beside the road, shoulder closed",
  shoulder: "shoulder closed",
  "parking-lane": "parking lane closed",
  flaggers: "one lane for both ways, with flaggers",
  merge: "one lane closed, traffic merging",
  "one-way-closed": "the only lane closed, traffic led around",
};

const DURATION_WORDS: Readonly<Record<TrafficControl["duration"], string>> = {
  "short-duration": "short duration: up to an hour in one place",
  "short-term": "short-term: over an hour, within one daylight period",
};

const TAPER_WORDS: Readonly<Record<Taper["kind"], string>> = {
  merging: "merging",
  shifting: "shifting",
  shoulder: "shoulder",
  "one-lane-two-way": "one lane, two ways",
  downstream: "behind the work",
};

/** The traffic control of a closure in words and drawings. */
export function trafficPage(closure: Closure, units: DisplayUnits, drive: "right" | "left"): TrafficPage {
  const { kind, note, control } = closure;
  return {
    title: CLOSURE_WORDS[kind],
    road: roadText(closure, units),
    note: /confirm with the road authority/i.test(note)
      ? note
      : `${note} Draft: confirm with the road authority before any sign is set out.`.trim(),
    sketch: closureSketch(closure, SKETCH_MM, units, drive),
    narrowSketch: closureSketch(closure, NARROW_SKETCH_MM, units, drive, "names"),
    facts: control == null ? [] : factsOf(closure, control, units),
    assumptions: control?.assumptions ?? [],
  };
}

function roadText({ roadName, speedKmh, control }: Closure, units: DisplayUnits): string | null {
  if (roadName === null && speedKmh === null && control == null) return null;
  const parts = [roadName ?? "Road without a name"];
  if (speedKmh !== null) {
    parts.push(units === "us" ? `${Math.round(speedKmh / KMH_PER_MPH)} mph` : `${Math.round(speedKmh)} km/h`);
  }
  if (control != null) parts.push(`${control.lanes} ${control.lanes === 1 ? "lane" : "lanes"}`);
  if (control?.isOneway === true) parts.push("one-way");
  return parts.join(", ");
}

function factsOf(closure: Closure, control: TrafficControl, units: DisplayUnits): (readonly [string, string])[] {
  const { bufferM } = closure;
  const length = (valueM: number): string => formatLength(valueM, units);
  const application = control.application === null ? "" : `; typical application ${control.application}`;
  const facts: (readonly [string, string])[] = [
    ["Case", `${capitalized(CASE_WORDS[control.caseId])}${application}`],
    ["Duration", capitalized(DURATION_WORDS[control.duration])],
    ["Set-ups", String(control.setUps)],
  ];
  const signs = signsText(closure, control, units);
  if (signs !== "") facts.push(["Signs", signs]);
  for (const { kind, lengthM, devices } of control.tapers) {
    facts.push([
      kind === "downstream" ? "End taper" : "Taper",
      `${capitalized(TAPER_WORDS[kind])}, ${length(lengthM)}, ${devices} devices`,
    ]);
  }
  if (bufferM !== null && control.tapers.length > 0)
    facts.push(["Buffer", `${length(bufferM)}, with nobody and nothing in it`]);
  facts.push(["Work space", `${length(control.workM)} along the road`]);
  const devices = devicesText(control, units);
  if (devices !== "") facts.push(["Devices", devices]);
  if (control.flaggers > 0) {
    const sight = control.flaggerSightM === null ? "" : `, each seen from ${length(control.flaggerSightM)}`;
    facts.push(["Flaggers", `${control.flaggers}${sight}`]);
  }
  if (control.isWalkClosed)
    facts.push(["Walk", "Closed beside the work; a detour as accessible as the walk, signed at both ends"]);
  return facts;
}

/** Letters as on the sketch, each sign with its distance to the one before it. */
function signsText(
  { signSpacingM }: Closure,
  { signs, approaches, flaggers }: TrafficControl,
  units: DisplayUnits,
): string {
  const shown = signs.slice(0, signSpacingM.length);
  if (shown.length === 0) return "";
  const from = flaggers > 0 ? "ahead of the flagger" : "ahead of the taper";
  const words = shown.map(
    (sign, at) => `${"ABC"[at]!} ${sign}, ${formatLength(signSpacingM[at]!, units)} ${at === 0 ? from : "farther"}`,
  );
  return `${words.join("; ")}${approaches === 2 ? "; in both directions" : ""}`;
}

function devicesText(control: TrafficControl, units: DisplayUnits): string {
  const { tapers, tangentDevices, coneHeightM, taperSpacingM, tangentSpacingM } = control;
  const count = tapers.reduce((sum, { devices }) => sum + devices, tangentDevices);
  if (count === 0) return "";
  const parts = [`${count} cones or drums a set-up`];
  if (coneHeightM !== null) parts.push(`cones at least ${formatLength(coneHeightM, units)} high`);
  if (taperSpacingM !== null) parts.push(`at most ${formatLength(taperSpacingM, units)} apart in the taper`);
  if (tangentSpacingM !== null) parts.push(`${formatLength(tangentSpacingM, units)} along buffer and work`);
  return parts.join(", ");
}
