import type { SourceFeature } from "../../model/feature.ts";
import type { Severity } from "../../model/finding.ts";
import { isBelowConductorRules } from "../../standard/conductor-rule.ts";
import type { Gathering } from "../gathering.ts";
import type { ConductorEnvelope } from "../surroundings.ts";
import type { WireGiven } from "./read-wire.ts";
import { spanSagM } from "./span-sag.ts";

/** Longer in meters than spans of the lines that stand among trees: vertices at some supports are missing. Our policy. */
const LONGEST_SPAN_M = 600;
/** Highest voltage of service drops and secondary lines. */
const SERVICE_UP_TO_V = 750;

/** Collects what is to be said of the conductors of a run, most of it once for all of them. */
export class ConductorFindings {
  readonly #gathering: Gathering;
  #overhead = 0;
  #unknownVoltage = 0;
  #assumedHeight = 0;
  #assumedSag = 0;
  #assumedType = 0;
  #insulated = 0;
  #lowVoltage = 0;
  #communication = 0;
  #longSpan = 0;
  readonly #withoutRuleV = new Set<number>();
  #withoutRule = 0;

  constructor(gathering: Gathering) {
    this.#gathering = gathering;
  }

  notOverhead(feature: SourceFeature): void {
    this.#gathering.find(feature, "conductor-not-overhead", "info", {
      field: "location",
      reason: "The conductor is recorded as underground and is not measured.",
      whatToDo: "Correct its location if it hangs overhead.",
    });
  }

  /** What is given of a wire without a sag or tension by which it would hang deeper than its span is long. */
  withoutImplausibleSag(feature: SourceFeature, wire: WireGiven, longestM: number): WireGiven {
    const { sagM, tensionN, weightNPerM } = wire;
    if (!(longestM > 0)) return wire;
    const hungM = sagM ?? (tensionN === null || weightNPerM === null ? 0 : spanSagM(longestM, weightNPerM, tensionN));
    if (hungM <= longestM / 3) return wire;
    this.#gathering.find(feature, "sag-implausible", "warning", {
      field: sagM === null ? "tension" : "sag",
      value: sagM ?? tensionN,
      reason: `The wire would sag by more than a third of its longest span of ${longestM.toFixed(1)} m; a sag is assumed instead.`,
      whatToDo: "Check the figure and its unit.",
    });
    return { ...wire, sagM: null, tensionN: null };
  }

  add(envelope: ConductorEnvelope, wire: WireGiven, longestM: number): void {
    this.#overhead += 1;
    if (envelope.attachmentBasis === "assumed") this.#assumedHeight += 1;
    if (longestM > LONGEST_SPAN_M) this.#longSpan += 1;
    if (envelope.isCommunication) {
      this.#communication += 1;
      return;
    }
    if (envelope.voltageV === null) this.#unknownVoltage += 1;
    if (envelope.sagBasis === "assumed") this.#assumedSag += 1;
    if (wire.conductor === null) this.#assumedType += 1;
    if (envelope.insulation !== null) this.#insulated += 1;
    if (envelope.ruleId !== null || envelope.voltageV === null) return;
    if (isBelowConductorRules(this.#gathering.standard, envelope.voltageV)) this.#lowVoltage += 1;
    else {
      this.#withoutRule += 1;
      this.#withoutRuleV.add(envelope.voltageV);
    }
  }

  sumUp(): void {
    const { standard } = this.#gathering;
    const utility = "Ask the utility; conflicts with these conductors are at most probable.";
    this.#say(
      "conductor-voltage-unknown",
      "warning",
      "voltage",
      this.#unknownVoltage,
      "no voltage; they are treated as distribution lines",
      utility,
    );
    this.#say(
      "conductor-height-assumed",
      "warning",
      "attachment_height_1",
      this.#assumedHeight,
      `no attachment heights; ${standard.conductor.assumedAttachmentM.toFixed(1)} m is assumed, more above 50 kV if the standard says so`,
      utility,
    );
    this.#say(
      "conductor-sag-assumed",
      "info",
      "sag",
      this.#assumedSag,
      "no sag, and no tension with weight; a sag is assumed",
      utility,
    );
    this.#say(
      "conductor-type-assumed",
      "info",
      "conductor",
      this.#assumedType,
      "no conductor type of the table; sag in heat and swing in wind are those of a small one",
      "Give the size and stranding, such as 4/0 6/1, or the weight.",
    );
    this.#say(
      "conductor-insulated",
      "info",
      "insulation",
      this.#insulated,
      "tree wire, aerial cable or another covering; distances of bare wire are used, though some rules exempt them",
      "Ask the utility which distance it keeps; it decides.",
    );
    this.#say(
      "conductor-low-voltage",
      "info",
      "voltage",
      this.#lowVoltage,
      "a voltage below every rule of the standard; no distance is asked for, only that branches do not rub the wire",
      "Look for rubbing and strain on site.",
    );
    this.#say(
      "conductor-without-rule",
      "warning",
      "voltage",
      this.#withoutRule,
      `a voltage that no rule of the standard holds (${[...this.#withoutRuleV].sort((a, b) => a - b).join(", ")} V); trees near them are not checked`,
      "Use a standard with rules for it, such as transmission, and ask the line's owner.",
    );
    this.#say(
      "span-very-long",
      "warning",
      null,
      this.#longSpan,
      `a span of more than ${LONGEST_SPAN_M} m; supports seem to be missing between its vertices`,
      "Give a vertex at every pole or tower; height and sag are wrong between the missing ones.",
    );
    if (this.#overhead === 0) return;
    const hasSmall = this.#lowVoltage > 0 || this.#communication > 0;
    this.#find(
      "service-drops-not-in-data",
      "info",
      null,
      `${hasSmall ? `Only ${this.#lowVoltage} lines of up to ${SERVICE_UP_TO_V} V and ${this.#communication} communication lines are` : "No service drops or communication wires are"} in the conductors layer; most cities' layers leave them out, and they were not looked for.`,
      "Look for them on site before any work.",
    );
  }

  #say(code: string, severity: Severity, field: string | null, count: number, what: string, whatToDo: string): void {
    if (count > 0)
      this.#find(
        code,
        severity,
        field,
        `${count} ${count === 1 ? "conductor has" : "conductors have"} ${what}.`,
        whatToDo,
      );
  }

  #find(code: string, severity: Severity, field: string | null, reason: string, whatToDo: string): void {
    this.#gathering.findings.push({
      code,
      severity,
      layer: "conductors",
      file: null,
      feature: null,
      field,
      value: null,
      reason,
      whatToDo,
    });
  }
}
