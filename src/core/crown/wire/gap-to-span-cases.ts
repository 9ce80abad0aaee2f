import type { LoadCaseId } from "../../model/load-cases.ts";
import type { Crown } from "../crown.ts";
import { gapToWire } from "./gap-to-wire.ts";
import { emptyWireGap, type WireGap } from "./nearest-on-wire.ts";
import type { SweptWire } from "./swept-wire.ts";

/** A span's wire in each of some load cases. */
export interface SpanCases {
  readonly cases: readonly { readonly wire: SweptWire; readonly loadCase: { readonly id: LoadCaseId } }[];
}

/** The case in which a crown is nearest to a span, and the gap in it; null when the span is out of reach in every case. */
export interface GapInCase extends WireGap {
  readonly caseId: LoadCaseId;
}

/**
 * The nearest of a span's load cases to a crown; of equal ones the first. Cases are looked at one by one and never combined. Parameters as
 * `gapToWire` has them.
 */
export function gapToSpanCases(
  crown: Crown,
  span: SpanCases,
  trunkXM: number,
  trunkYM: number,
  footM: number,
  reachM: number,
): GapInCase | null {
  let best: GapInCase | null = null;
  for (const { wire, loadCase } of span.cases) {
    const gap = emptyWireGap();
    gapToWire(gap, crown, wire, trunkXM, trunkYM, footM, reachM);
    if (gap.gapM < (best?.gapM ?? Number.POSITIVE_INFINITY)) best = { ...gap, caseId: loadCase.id };
  }
  return best;
}
