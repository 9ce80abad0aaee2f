import { blowOutOf } from "../../crown/wire/swept-wire.ts";
import { WIRE_STRIDE, writeWire } from "../../crown/wire/wire-columns.ts";
import { LOAD_CASE_IDS, type LoadCaseId } from "../../model/load-cases.ts";
import type { HungSpan } from "../../plane/plane-shapes.ts";
import type { HangSpan } from "../../plane/shapes-builder.ts";
import { assumedSag } from "./assumed-sag.ts";
import type { WireGiven } from "./read-wire.ts";
import { rulingSpanM, sagByOtherSpanM } from "./ruling-span.ts";
import { spanSagM } from "./span-sag.ts";
import { sweptSpan } from "./swept-span.ts";

/** A line ready to be hung: heights a vertex, lengths a span, and what is known of the wire. */
export interface LineGiven {
  readonly attachmentM: Float64Array;
  /** Elevation of the ground at each vertex; null where none is known. */
  readonly groundM: Float64Array | null;
  readonly lengthsM: readonly number[];
  readonly wire: WireGiven;
  /** Where no sag is known and the standard has a share of its own. */
  readonly assumedShare: number | null;
  readonly caseIds: readonly LoadCaseId[];
}

/** Shorter in meters than any span: two vertices at one place. */
const NO_SPAN_M = 0.05;

/**
 * A function that hangs the wires of a line's spans in a plane, one a load case. A sag belongs to the longest span, the others take it by the
 * square of their lengths, as wires strung at one tension do (CPUC General Order 95, Appendix C); tension and weight give each span its own. Spans
 * strung through at a known tension change with their ruling span. Null for a span without length.
 */
export function hangLine(line: LineGiven): HangSpan {
  const { wire, lengthsM, attachmentM, groundM } = line;
  const hung = lengthsM.filter((lengthM) => lengthM > NO_SPAN_M);
  const longestM = hung.reduce((most, lengthM) => Math.max(most, lengthM), 0);
  const isTensionKnown = wire.sagM !== null || (wire.tensionN !== null && wire.weightNPerM !== null);
  const rulingM = hung.length > 1 && isTensionKnown ? rulingSpanM(hung) : null;
  return (at, ax, ay, bx, by) => {
    const lengthM = lengthsM[at]!;
    if (!(lengthM > NO_SPAN_M)) return null;
    const groundA = groundM?.[at] ?? Number.NaN;
    const groundB = groundM?.[at + 1] ?? Number.NaN;
    const isKnown = groundM !== null;
    const az = attachmentM[at]! + (isKnown ? groundA : 0);
    const bz = attachmentM[at + 1]! + (isKnown ? groundB : 0);
    const swept = sweptSpan(
      {
        ax,
        ay,
        az,
        bx,
        by,
        bz,
        use: wire.use,
        sagM: sagOf(line, lengthM, longestM, bz - az),
        sagTemperatureC: wire.sagTemperatureC,
        conductor: wire.conductor,
        stringM: wire.stringM,
        rulingSpanM: rulingM,
      },
      line.caseIds,
    );
    const wires = new Float64Array(swept.cases.length * WIRE_STRIDE);
    for (const [place, one] of swept.cases.entries()) writeWire(wires, place * WIRE_STRIDE, one.wire);
    return {
      wires,
      cases: swept.cases.map(({ loadCase }) => LOAD_CASE_IDS.indexOf(loadCase.id)),
      groundM: [groundA, groundB],
      blowOutM: swept.cases.reduce((most, one) => Math.max(most, blowOutOf(one.wire)), 0),
    } satisfies HungSpan;
  };
}

/** Sags in meters of a line's spans, as recorded, reckoned or assumed; 0 for a span without length. */
export function sagsOf(line: Pick<LineGiven, "attachmentM" | "lengthsM" | "wire" | "assumedShare">): number[] {
  const longestM = line.lengthsM.reduce((most, lengthM) => Math.max(most, lengthM), 0);
  return line.lengthsM.map((lengthM, at) => {
    if (!(lengthM > NO_SPAN_M)) return 0;
    const riseM = line.attachmentM[at + 1]! - line.attachmentM[at]!;
    return sagOf(line, lengthM, longestM, riseM) ?? assumedSag(lengthM, line.wire.use).sagM;
  });
}

function sagOf(
  { wire, assumedShare }: Pick<LineGiven, "wire" | "assumedShare">,
  lengthM: number,
  longestM: number,
  riseM: number,
): number | null {
  if (wire.sagM !== null) return sagByOtherSpanM(wire.sagM, longestM, lengthM);
  if (wire.tensionN !== null && wire.weightNPerM !== null)
    return Math.min(lengthM, spanSagM(lengthM, wire.weightNPerM, wire.tensionN, riseM));
  return assumedShare === null ? null : assumedShare * lengthM;
}
