import { metersFromFeet } from "../../units/length.ts";
import { celsiusFromFahrenheit } from "../../units/temperature.ts";
import { COMMUNICATION_SAG_SOURCE, communicationSagM } from "./communication-sag.ts";
import { sagByOtherSpanM } from "./ruling-span.ts";

/** A sag nobody measured, at 60 F in still air, with what it rests on. */
export interface AssumedSag {
  readonly sagM: number;
  readonly basis: "assumed";
  readonly source: string;
}

/** The example span of GO 95, Appendix C (c): 5.30 ft in 300 ft. */
const EXAMPLE_SPAN_M = metersFromFeet(300);
const EXAMPLE_SAG_M = metersFromFeet(5.3);
/** Least sag as a share of the span: short spans in town are strung slack; and the most: long ones are strung tight. Our policy. */
const LEAST_SHARE = 0.01;
const MOST_SHARE = 0.03;

/**
 * A sag in meters for a span of which none is known. Communication lines take the stringing table; supply lines the source's example by the
 * square of the lengths, at least 1 and at most 3 % of the span (policy). A guess: the caller labels what is built on it.
 */
export function assumedSag(spanM: number, use: "supply" | "communication"): AssumedSag {
  if (use === "communication")
    return {
      sagM: communicationSagM(spanM, celsiusFromFahrenheit(60)),
      basis: "assumed",
      source: `${COMMUNICATION_SAG_SOURCE}, at 60 F`,
    };
  return {
    sagM: Math.min(
      MOST_SHARE * spanM,
      Math.max(LEAST_SHARE * spanM, sagByOtherSpanM(EXAMPLE_SAG_M, EXAMPLE_SPAN_M, spanM)),
    ),
    basis: "assumed",
    source:
      "CPUC General Order 95, Appendix C (c), example of 5.30 ft in 300 ft; at least 1 and at most 3 % of the span by policy",
  };
}
