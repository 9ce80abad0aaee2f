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
import { assumedSag } from "./conductors/assumed-sag.ts";
import { ConductorFindings } from "./conductors/conductor-findings.ts";
import { hangLine, sagsOf } from "./conductors/hang-line.ts";
import { lineHeights, readEnds } from "./conductors/line-heights.ts";
import { type PoleGiven, Poles, readPole } from "./conductors/poles.ts";
import { readWire, type WireGiven } from "./conductors/read-wire.ts";
import { type Gathering, plainFeature } from "./gathering.ts";
import { parseVoltageV } from "./parse-voltage.ts";
import { readTag, readValue, textOf, wordOf } from "./read-value.ts";
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
  const given = new Map(features.map((one) => [one, readPole(gathering, one)]));
  const poles = new Poles([...given.values()].filter((pole) => pole !== null));
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
      addPole(gathering, feature, id, circuit, given.get(feature)!);
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
  const ends = readEnds(gathering, feature);
  const assumedM = assumedAttachmentM(standard, voltageV);
  const heights = lines.map((line, part) => lineHeights(ends, line, lengths[part]!, given.poles, assumedM));
  const attachmentBasis = worst(heights.map(({ basis }) => basis));
  const spanIds = spanIdsOf(gathering, given, lengths.flat().length);
  const assumedShare = wire.use === "communication" ? null : standard.conductor.assumedSagShare;
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
    wire: {
      ...recordOf(standard, rule, wire, caseIds, spanIds, lengths.flat(), longestM),
      attachmentsM: heights.flatMap(({ attachmentM }) => [...attachmentM]),
      sagsM: heights.flatMap(({ attachmentM }, part) =>
        sagsOf({ attachmentM, lengthsM: lengths[part]!, wire, assumedShare }),
      ),
    },
  });
  found.add(envelope, wire, longestM);
  const owner = gathering.addEnvelope(envelope);
  let firstNumber = 0;
  for (const [part, line] of lines.entries()) {
    const hang = hangLine({
      ...heights[part]!,
      lengthsM: lengths[part]!,
      wire,
      assumedShare,
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

function addPole(
  gathering: Gathering,
  feature: SourceFeature,
  id: string,
  circuit: string | null,
  pole: PoleGiven,
): void {
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
