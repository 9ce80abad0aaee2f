import type { Position } from "geojson";
import { columnUnit } from "../model/column-map.ts";
import type { SourceFeature } from "../model/feature.ts";
import { DEFAULT_RULE_CASES, type LoadCaseId, RULE_CASES } from "../model/load-cases.ts";
import type { WireRecord } from "../model/surroundings.ts";
import type { Basis } from "../model/terms.ts";
import { planeOf, toPlane } from "../plane/plane.ts";
import { assumedAttachmentM } from "../standard/assumed-attachment.ts";
import { conductorRuleOf, minimumAtM } from "../standard/conductor-rule.ts";
import type { ClearanceRule, Standard } from "../standard/standard.ts";
import { alongLine } from "./conductors/along-line.ts";
import { assumedSag } from "./conductors/assumed-sag.ts";
import { ConductorFindings } from "./conductors/conductor-findings.ts";
import { hangLine } from "./conductors/hang-line.ts";
import { type PoleGiven, Poles, readPole } from "./conductors/poles.ts";
import { readWire, type WireGiven } from "./conductors/read-wire.ts";
import { type Gathering, plainFeature } from "./gathering.ts";
import { parseVoltageV } from "./parse-voltage.ts";
import { readLengthM, readLengthOrZeroM, readTag, readValue, textOf, wordOf } from "./read-value.ts";
import type { ConductorEnvelope } from "./surroundings.ts";

const NOT_OVERHEAD = ["underground", "underwater", "indoor", "underground-cable"];
/** Rest, cold and hot: what a line without a rule is hung in, for the people who work near it. */
const AT_REST: readonly LoadCaseId[] = RULE_CASES["go-95-rule-35"];

/**
 * Adds overhead conductors: lines whose vertices are supports, hung in the load cases that the rule for their voltage names. Heights of the wire come
 * from its ends and from poles given as points within 3 m of a vertex, evenly in between; what is not recorded is assumed and labeled.
 */
export function readConductors(gathering: Gathering, features: readonly SourceFeature[]): void {
  const found = new ConductorFindings(gathering);
  const poles = new Poles(features.map((one) => readPole(gathering, one)).filter((pole) => pole !== null));
  const takenIds = new Set<string>();
  for (const feature of features) {
    const lines = linesOf(feature);
    if (lines === null && feature.geometry.type !== "Point") {
      gathering.leaveOutGeometry(feature, "conductors as LineString or MultiLineString, poles as Point");
      continue;
    }
    if (lines !== null && gathering.isTooWide(feature, lines, false)) continue;
    const id = gathering.idOf(feature);
    const circuit = textOf(readValue(gathering.columns, "conductors", "circuit", feature, "name", "ref"));
    if (lines === null) {
      addPole(gathering, feature, id, circuit);
      continue;
    }
    if (isUnderground(gathering, feature)) {
      gathering.features.push({ ...plainFeature(id, feature, circuit, null), voltageV: voltageOf(gathering, feature) });
      found.notOverhead(feature);
      continue;
    }
    addLine(gathering, found, { feature, lines, id, circuit, poles, takenIds });
  }
  found.sumUp();
}

interface LineFeature {
  readonly feature: SourceFeature;
  readonly lines: readonly (readonly Position[])[];
  readonly id: string;
  readonly circuit: string | null;
  readonly poles: Poles;
  readonly takenIds: Set<string>;
}

function addLine(gathering: Gathering, found: ConductorFindings, given: LineFeature): void {
  const { feature, lines, id, circuit } = given;
  const { standard } = gathering;
  const read = readWire(gathering, feature);
  const voltageV = read.use === "communication" ? 0 : voltageOf(gathering, feature);
  const rule = read.use === "communication" ? null : conductorRuleOf(standard, voltageV);
  const caseIds = rule === null ? AT_REST : RULE_CASES[rule.loadCases ?? DEFAULT_RULE_CASES];
  const lengths = lines.map(lengthsOf);
  const longestM = lengths.flat().reduce((most, lengthM) => Math.max(most, lengthM), 0);
  const wire = found.withoutImplausibleSag(feature, read, longestM);
  const heights = lines.map((line, part) => heightsOf(gathering, feature, line, lengths[part]!, given.poles, voltageV));
  const attachmentBasis = worst(heights.map(({ basis }) => basis));
  const spanIds = spanIdsOf(gathering, given, lengths.flat().length);
  const isSagKnown = wire.sagM !== null || (wire.tensionN !== null && wire.weightNPerM !== null);
  const envelope: ConductorEnvelope = {
    type: "conductor",
    withLayer: "conductors",
    withId: id,
    withName: circuit,
    voltageV,
    ruleId: rule?.id ?? null,
    attachmentBasis,
    sagBasis: isSagKnown ? "measured" : "assumed",
    conductorBasis: wire.conductorBasis,
    insulation: wire.insulation,
    isCommunication: wire.use === "communication",
    spanIds,
  };
  gathering.features.push({
    ...plainFeature(id, feature, circuit, "conductor"),
    heightM: Math.min(...heights.map(({ attachmentM }) => attachmentM.reduce((least, one) => Math.min(least, one)))),
    heightSource: HEIGHT_SOURCE[attachmentBasis],
    voltageV: wire.use === "communication" ? null : voltageV,
    wire: recordOf(standard, rule, wire, caseIds, spanIds, lengths.flat(), longestM),
  });
  found.add(envelope, wire, longestM);
  const owner = gathering.addEnvelope(envelope);
  let firstNumber = 0;
  for (const [part, line] of lines.entries()) {
    const hang = hangLine({
      ...heights[part]!,
      lengthsM: lengths[part]!,
      wire,
      assumedShare: wire.use === "communication" ? null : standard.conductor.assumedSagShare,
      caseIds,
    });
    gathering.shapes.addSpans(owner, line, firstNumber, hang);
    firstNumber += line.length - 1;
  }
}

const HEIGHT_SOURCE: Readonly<Record<Basis, string>> = {
  measured: "attachment height",
  estimated: "estimated from some attachment heights or the heights of poles",
  assumed: "assumed attachment height",
};

function recordOf(
  standard: Standard,
  rule: ClearanceRule | null,
  wire: WireGiven,
  loadCases: readonly LoadCaseId[],
  spanIds: readonly string[],
  spanLengthsM: readonly number[],
  longestM: number,
): WireRecord {
  const share = standard.conductor.assumedSagShare;
  return {
    spanIds,
    spanLengthsM,
    ruleId: rule?.id ?? null,
    minimumM: rule === null ? null : (minimumAtM(rule, standard.conductor.altitudeM) ?? rule.minimumM),
    clearToM: rule?.clearToM ?? null,
    loadCases,
    sagSource:
      wire.sagM !== null
        ? "as recorded, of the longest span"
        : wire.tensionN !== null && wire.weightNPerM !== null
          ? "from tension and weight"
          : wire.use === "supply" && share !== null
            ? `assumed, ${share * 100} % of the span by the standard`
            : `assumed: ${assumedSag(Math.max(longestM, 1), wire.use).source}`,
    conductorSource: wire.conductorSource,
    insulation: wire.insulation,
    cables: wire.cables,
  };
}

function addPole(gathering: Gathering, feature: SourceFeature, id: string, circuit: string | null): void {
  const pole = readPole(gathering, feature) as PoleGiven;
  const assumedM = gathering.standard.conductor.assumedAttachmentM;
  gathering.features.push({
    ...plainFeature(id, feature, circuit, null),
    heightM: pole.attachmentM,
    heightSource: pole.attachmentM === null ? null : HEIGHT_SOURCE[pole.basis],
    voltageV: voltageOf(gathering, feature),
  });
  if (gathering.standard.conductor.poleClearing === null) return;
  gathering.poles.push({
    id,
    lonDeg: pole.lonDeg,
    latDeg: pole.latDeg,
    attachmentM: pole.attachmentM ?? assumedM,
  });
}

/** Attachment heights and elevations of the ground at a line's vertices, and how they are known. */
function heightsOf(
  gathering: Gathering,
  feature: SourceFeature,
  line: readonly Position[],
  lengthsM: readonly number[],
  poles: Poles,
  voltageV: number | null,
): { attachmentM: Float64Array; groundM: Float64Array | null; basis: Basis } {
  const { columns, standard } = gathering;
  const carriers = line.map((position) => poles.at(position));
  const known = carriers.map((pole) => pole?.attachmentM ?? null);
  const grounds = carriers.map((pole) => pole?.groundM ?? null);
  const first = readLengthM(columns, "conductors", "attachment_height_1", feature, "height");
  const last = readLengthM(columns, "conductors", "attachment_height_2", feature, "height") ?? first;
  known[0] = first ?? known[0] ?? last;
  known[line.length - 1] = last ?? known[line.length - 1]!;
  grounds[0] = readLengthOrZeroM(columns, "conductors", "ground_z_1", feature) ?? grounds[0]!;
  grounds[line.length - 1] =
    readLengthOrZeroM(columns, "conductors", "ground_z_2", feature) ?? grounds[line.length - 1]!;
  const byPoles = worst(carriers.map((pole) => (pole === null || pole.attachmentM === null ? "measured" : pole.basis)));
  const areEndsKnown = first !== null || last !== null;
  const isKnown = areEndsKnown || known.every((heightM) => heightM !== null);
  const assumedM = assumedAttachmentM(standard, voltageV);
  const attachmentM = alongLine(known, lengthsM);
  return {
    attachmentM: attachmentM ?? new Float64Array(line.length).fill(assumedM),
    groundM: alongLine(grounds, lengthsM),
    basis: attachmentM === null ? "assumed" : isKnown ? byPoles : "estimated",
  };
}

function worst(bases: readonly Basis[]): Basis {
  return bases.includes("assumed") ? "assumed" : bases.includes("estimated") ? "estimated" : "measured";
}

/** Ids of a line's spans: the given span id, else the line's, with `/1`, `/2` ... behind it where there are several; unique by `~2`, `~3` ... */
function spanIdsOf(gathering: Gathering, { feature, id, takenIds }: LineFeature, count: number): string[] {
  const given = textOf(readValue(gathering.columns, "conductors", "span", feature));
  return Array.from({ length: count }, (_, at) => {
    const base = given !== null && count === 1 ? given : `${given ?? id}/${at + 1}`;
    let spanId = base;
    for (let again = 2; takenIds.has(spanId); again += 1) spanId = `${base}~${again}`;
    takenIds.add(spanId);
    return spanId;
  });
}

const voltageOf = ({ columns, standard }: Gathering, feature: SourceFeature): number | null =>
  parseVoltageV(readValue(columns, "conductors", "voltage", feature), columnUnit(columns, "conductors", "voltage")) ??
  standard.conductor.assumedVoltageV;

function lengthsOf(line: readonly Position[]): number[] {
  const plane = planeOf(line[0]![0]!);
  const points = line.map((position) => toPlane(plane, position[0]!, position[1]!));
  return points.slice(1).map(([x, y], at) => Math.hypot(x - points[at]![0], y - points[at]![1]));
}

function isUnderground(gathering: Gathering, feature: SourceFeature): boolean {
  if (NOT_OVERHEAD.includes(wordOf(readValue(gathering.columns, "conductors", "location", feature)))) return true;
  return wordOf(readTag(feature, "power")) === "cable" && wordOf(readTag(feature, "location")) !== "overhead";
}

function linesOf(feature: SourceFeature): readonly (readonly Position[])[] | null {
  if (feature.geometry.type === "LineString") return [feature.geometry.coordinates];
  return feature.geometry.type === "MultiLineString" ? feature.geometry.coordinates : null;
}
