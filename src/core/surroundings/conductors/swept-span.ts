import type { SweptWire } from "../../crown/wire/swept-wire.ts";
import { LOAD_CASES, type LoadCase, type LoadCaseId, STRINGING_CASE } from "../../model/load-cases.ts";
import type { Basis } from "../../model/terms.ts";
import { acsrConductor, type Conductor } from "./acsr-table.ts";
import { assumedSag } from "./assumed-sag.ts";
import { changedTensionN } from "./change-of-state.ts";
import { CATENARY_ABOVE_SHARE, spanSagM, spanTensionN } from "./span-sag.ts";
import { type WireLoad, wireLoad } from "./wire-load.ts";
import { swingAngleRad } from "./wire-swing.ts";

/** Two ends of a wire in meters of a plane and of height, and what is known of it; null is unknown. */
export interface SpanInput {
  readonly ax: number;
  readonly ay: number;
  readonly az: number;
  readonly bx: number;
  readonly by: number;
  readonly bz: number;
  readonly use: "supply" | "communication";
  /** Vertical sag from the middle of the chord in still air at `sagTemperatureC`; 0 is a wire without sag. */
  readonly sagM: number | null;
  /** Temperature the sag was stated for; null takes 60 F. */
  readonly sagTemperatureC: number | null;
  readonly conductor: Conductor | null;
  /** Free insulator string; null is none. */
  readonly stringM: number | null;
  /** Ruling span of the spans strung through, when there are several; null takes the span itself. */
  readonly rulingSpanM: number | null;
}

/** A span in one load case. */
export interface SpanInCase {
  readonly loadCase: LoadCase;
  readonly load: WireLoad;
  /** Horizontal tension in newtons under the resultant load. */
  readonly tensionN: number;
  readonly wire: SweptWire;
}

export interface SweptSpan {
  readonly spanM: number;
  readonly cases: readonly SpanInCase[];
  readonly sagBasis: Basis;
  readonly conductorBasis: Basis;
  /** What was assumed, in words with its source; empty when nothing was. */
  readonly assumptions: readonly string[];
}

/** Stands in where the conductor is not known: a small one, which swings far. Common practice, no source. */
export const ASSUMED_CONDUCTOR = "1/0 6/1";
/** Least sag as a share of the span that a tension is computed from; no wire is drawn tighter. Our policy. */
const TIGHTEST_SHARE = 0.001;

/**
 * The places of a span's wire in each of some load cases, sag and swing computed from its sag in still air by the change of state. Wind blows
 * either way, square to the span. In still air at the temperature it is stated for, the sag is the one given; less than 0.1 % of the span is taken
 * as that much.
 *
 * Not modeled: heating by current, creep, insulated or bundled wires, supports that give way, gusts. Throws RangeError for ends at one place in
 * plan, and for a sag below 0 or above the span.
 */
export function sweptSpan(input: SpanInput, caseIds: readonly LoadCaseId[]): SweptSpan {
  const spanM = Math.hypot(input.bx - input.ax, input.by - input.ay);
  if (!(spanM > 0)) throw new RangeError("Expected two attachments apart in plan, got one place");
  if (input.sagM !== null && !(input.sagM >= 0 && input.sagM <= spanM))
    throw new RangeError(`Expected a sag of 0 to ${spanM} m, got ${input.sagM} m`);
  const assumptions: string[] = [];
  const guess = input.sagM === null ? assumedSag(spanM, input.use) : null;
  if (guess !== null) assumptions.push(`sag: ${guess.source}`);
  const conductor = input.conductor ?? acsrConductor("1/0", "6/1")!;
  if (input.conductor === null) assumptions.push(`conductor: ${ASSUMED_CONDUCTOR} ACSR, common practice, no source`);
  const sagM = input.sagM ?? guess!.sagM;
  const stretch = new Stretching(input, spanM, conductor, sagM);
  return {
    spanM,
    cases: caseIds.map((id) => inCase(input, stretch, LOAD_CASES[id])),
    sagBasis: guess === null ? "measured" : guess.basis,
    conductorBasis: input.conductor === null ? "assumed" : "measured",
    assumptions,
  };
}

/** The span's wire as it was strung, from which every other state follows. */
class Stretching {
  readonly spanM: number;
  readonly riseM: number;
  readonly conductor: Conductor;
  /** Horizontal tension in newtons in still air at the temperature of the sag. */
  readonly strungN: number;
  readonly #rulingM: number;
  readonly #temperatureC: number;

  constructor(input: SpanInput, spanM: number, conductor: Conductor, sagM: number) {
    this.spanM = spanM;
    this.riseM = input.bz - input.az;
    this.conductor = conductor;
    this.#rulingM = input.rulingSpanM ?? spanM;
    this.#temperatureC = input.sagTemperatureC ?? STRINGING_CASE.temperatureC;
    const usedM = Math.max(sagM, TIGHTEST_SHARE * spanM);
    this.strungN = spanTensionN(spanM, conductor.weightNPerM, usedM, this.riseM);
  }

  /** Horizontal tension in newtons under a load at a temperature; of the ruling span where there is one. */
  tensionN(loadNPerM: number, temperatureC: number): number {
    return changedTensionN(
      this.#rulingM,
      this.conductor,
      this.strungN,
      { loadNPerM: this.conductor.weightNPerM, temperatureC: this.#temperatureC },
      { loadNPerM, temperatureC },
      this.#rulingM === this.spanM ? this.riseM : 0,
    );
  }

  sagM(loadNPerM: number, tensionN: number): number {
    return spanSagM(this.spanM, loadNPerM, tensionN, this.riseM);
  }
}

function inCase(input: SpanInput, stretch: Stretching, loadCase: LoadCase): SpanInCase {
  const load = wireLoad(stretch.conductor, loadCase.windPa, loadCase.iceM);
  const tensionN = stretch.tensionN(load.resultantNPerM, loadCase.temperatureC);
  const swungSagM = stretch.sagM(load.resultantNPerM, tensionN);
  const isBlown = load.windNPerM > 0;
  const restN = isBlown ? stretch.tensionN(load.verticalNPerM, loadCase.temperatureC) : tensionN;
  return {
    loadCase,
    load,
    tensionN,
    wire: {
      ax: input.ax,
      ay: input.ay,
      az: input.az,
      bx: input.bx,
      by: input.by,
      bz: input.bz,
      stillSagM: isBlown ? stretch.sagM(load.verticalNPerM, restN) : swungSagM,
      swungSagM,
      swingRad: isBlown ? swingAngleRad(load) : 0,
      stringM: input.stringM ?? 0,
      parameterM: swungSagM > CATENARY_ABOVE_SHARE * stretch.spanM ? tensionN / load.resultantNPerM : 0,
    },
  };
}
