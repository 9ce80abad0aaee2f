import type { Position } from "geojson";
import { columnUnit } from "../model/column-map.ts";
import type { SourceFeature } from "../model/feature.ts";
import { planeOf, toPlane } from "../plane/plane.ts";
import { type Gathering, plainFeature } from "./gathering.ts";
import { parseVoltageV } from "./parse-voltage.ts";
import { readLengthM, readLengthOrZeroM, readTag, readValue, textOf, wordOf } from "./read-value.ts";

const NOT_OVERHEAD = ["underground", "underwater", "indoor", "underground-cable"];
const BARE = ["", "bare", "no", "none", "uninsulated"];

/**
 * Adds overhead conductors: lines whose vertices are supports. Attachment heights run evenly from the first to the last; a sag belongs to
 * the longest span, shorter ones take it by the square of their length, as wires strung at one tension do (CPUC General Order 95,
 * Appendix C). Poles given as points are shown only.
 */
export function readConductors(gathering: Gathering, features: readonly SourceFeature[]): void {
  const { columns, standard } = gathering;
  let unknownVoltage = 0;
  let assumedHeight = 0;
  for (const feature of features) {
    const lines = linesOf(feature);
    if (lines === null && feature.geometry.type !== "Point") {
      gathering.leaveOutGeometry(feature, "conductors as LineString or MultiLineString, poles as Point");
      continue;
    }
    if (lines !== null && gathering.isTooWide(feature, lines, false)) continue;
    const id = gathering.idOf(feature);
    const circuit = textOf(readValue(columns, "conductors", "circuit", feature, "name", "ref"));
    const voltageV =
      parseVoltageV(
        readValue(columns, "conductors", "voltage", feature),
        columnUnit(columns, "conductors", "voltage"),
      ) ?? standard.conductor.assumedVoltageV;
    const first = readLengthM(columns, "conductors", "attachment_height_1", feature, "height");
    const last = readLengthM(columns, "conductors", "attachment_height_2", feature, "height") ?? first;
    const isOverhead = !isUnderground(gathering, feature);
    const startM = first ?? last ?? standard.conductor.assumedAttachmentM;
    const endM = last ?? startM;
    gathering.features.push({
      ...plainFeature(id, feature, circuit, lines !== null && isOverhead ? "conductor" : null),
      heightM: lines === null ? null : Math.min(startM, endM),
      heightSource: lines === null ? null : last === null ? "assumed attachment height" : "attachment height",
      voltageV,
    });
    if (lines === null) continue;
    if (!isOverhead) {
      gathering.find(feature, "conductor-not-overhead", "info", {
        field: "location",
        reason: "The conductor is recorded as underground and is not measured.",
        whatToDo: "Correct its location if it hangs overhead.",
      });
      continue;
    }
    if (voltageV === null) unknownVoltage += 1;
    if (last === null) assumedHeight += 1;
    const sagM = readLengthOrZeroM(columns, "conductors", "sag", feature);
    const insulation = wordOf(readValue(columns, "conductors", "insulation", feature));
    const envelope = gathering.addEnvelope({
      type: "conductor",
      withLayer: "conductors",
      withId: id,
      withName: circuit,
      voltageV,
      attachmentBasis: last === null ? "assumed" : "measured",
      sagBasis: sagM === null ? "assumed" : "measured",
      insulation: BARE.includes(insulation) ? null : insulation.split("-").join(" "),
    });
    for (const line of lines) addLine(gathering, envelope, line, startM, endM, sagM);
  }
  addSummary(
    gathering,
    "conductor-voltage-unknown",
    "voltage",
    unknownVoltage,
    "no voltage; they are treated as distribution lines",
  );
  addSummary(
    gathering,
    "conductor-height-assumed",
    "attachment_height_1",
    assumedHeight,
    `no attachment heights; ${standard.conductor.assumedAttachmentM.toFixed(1)} m is assumed`,
  );
}

function addLine(
  gathering: Gathering,
  envelope: number,
  line: readonly Position[],
  startM: number,
  endM: number,
  sagM: number | null,
): void {
  const plane = planeOf(line[0]![0]!);
  const points = line.map((position) => toPlane(plane, position[0]!, position[1]!));
  const lengths = points.slice(1).map(([x, y], at) => Math.hypot(x - points[at]![0], y - points[at]![1]));
  const longestM = lengths.reduce((most, length) => Math.max(most, length), 0);
  const wholeM = lengths.reduce((sum, length) => sum + length, 0);
  const attachmentM = new Float64Array(line.length);
  let doneM = 0;
  for (let at = 0; at < line.length; at += 1) {
    attachmentM[at] = startM + (endM - startM) * (wholeM > 0 ? doneM / wholeM : 0);
    doneM += lengths[at] ?? 0;
  }
  const sags = lengths.map((lengthM) =>
    sagM === null
      ? lengthM * gathering.standard.conductor.assumedSagShare
      : longestM > 0
        ? sagM * (lengthM / longestM) ** 2
        : 0,
  );
  gathering.shapes.addSpans(envelope, line, attachmentM, sags);
}

function isUnderground(gathering: Gathering, feature: SourceFeature): boolean {
  if (NOT_OVERHEAD.includes(wordOf(readValue(gathering.columns, "conductors", "location", feature)))) return true;
  return wordOf(readTag(feature, "power")) === "cable" && wordOf(readTag(feature, "location")) !== "overhead";
}

function linesOf(feature: SourceFeature): readonly (readonly Position[])[] | null {
  if (feature.geometry.type === "LineString") return [feature.geometry.coordinates];
  return feature.geometry.type === "MultiLineString" ? feature.geometry.coordinates : null;
}

function addSummary(gathering: Gathering, code: string, field: string, count: number, what: string): void {
  if (count === 0) return;
  gathering.findings.push({
    code,
    severity: "warning",
    layer: "conductors",
    file: null,
    feature: null,
    field,
    value: null,
    reason: `${count} conductors have ${what}.`,
    whatToDo: "Ask the utility; conflicts with these conductors are at most probable.",
  });
}
