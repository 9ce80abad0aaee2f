import { type DisplayUnits, formatDiameter, formatLength } from "./format-length.ts";
import { KMH_PER_MPH, METERS_PER_FOOT, METERS_PER_INCH } from "./length.ts";

/** `14 ft`, `13 ft 6 in`; a lone `8 in` or `3–8 in`, but not `2 in the next year`; `25 mph`. Figures are bounded, so that the time is linear in the text. */
const US_FIGURE =
  /(?<![\d.,–-])(?:(\d{1,5})[ \u00a0]ft(?:[ \u00a0](\d{1,2})[ \u00a0]in)?|(?:(\d{1,3}(?:\.\d)?)–)?(\d{1,3}(?:\.\d)?)[ \u00a0]in(?! (?:the|an?|each|one|two|three)\b)|(\d{1,3})[ \u00a0]mph)(?![A-Za-z\d])/g;
/** `4.3 m`, `21 m`; `8 cm` or `8–20 cm`; `40 km/h`. */
const METRIC_FIGURE =
  /(?<![\d.,–-])(?:(\d{1,5}(?:\.\d)?)[ \u00a0]m|(?:(\d{1,4})–)?(\d{1,4})[ \u00a0]cm|(\d{1,3})[ \u00a0]km\/h)(?![A-Za-z\d/])/g;

/**
 * A sentence that was written in one kind of units with its figures in another; the same sentence where both are one. What is converted is the rounded figure that stands in
 * it, so the last digit can differ from one converted from the measure itself. Inches and centimeters by themselves turn into each other, so that `8 in` is `20 cm`.
 */
export function sentenceInUnits(sentence: string, from: DisplayUnits, to: DisplayUnits): string {
  if (from === to) return sentence;
  if (to === "metric") {
    return sentence.replace(US_FIGURE, (_, feet, inches = "0", low, inch, mph) => {
      if (feet !== undefined)
        return formatLength(Number(feet) * METERS_PER_FOOT + Number(inches) * METERS_PER_INCH, "metric");
      if (mph !== undefined) return `${Math.round(Number(mph) * KMH_PER_MPH)} km/h`;
      const centimeters = (text: string) => String(Math.round(Number(text) * METERS_PER_INCH * 100));
      return `${low === undefined ? "" : `${centimeters(low)}–`}${centimeters(inch)} cm`;
    });
  }
  return sentence.replace(METRIC_FIGURE, (_, meters, low, centimeters, kmh) => {
    if (meters !== undefined) return formatLength(Number(meters), "us");
    if (kmh !== undefined) return `${Math.round(Number(kmh) / KMH_PER_MPH)} mph`;
    const inches = (text: string) => formatDiameter(Number(text) / 100, "us");
    return `${low === undefined ? "" : `${inches(low).replace(" in", "")}–`}${inches(centimeters)}`;
  });
}
