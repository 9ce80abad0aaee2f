import type { Prescription, Visit } from "../../core/model/prescription.ts";
import { type DisplayUnits, formatLength, formatShare } from "../../core/units/format-length.ts";
import { capitalized, WORDS } from "../words.ts";

/** What a tree gets in a few words, with the dose of one visit: `Lift to 4.6 m, 14 % of the crown`; `Watch, no work yet`. */
export function workInBrief(prescription: Prescription, visit: Visit | undefined, units: DisplayUnits): string {
  const { remedy, liftToM, shortenM } = prescription;
  if (remedy === "refer") return capitalized(WORDS.remedy.refer);
  if (remedy === "none") return prescription.urgency === "watch" ? "No work yet" : "No work";
  const length =
    remedy === "lift" && liftToM !== null
      ? ` to ${formatLength(liftToM, units)}`
      : remedy === "shorten" && shortenM !== null
        ? shorteningInWords(formatLength(shortenM, units))
        : "";
  const dose = visit === undefined ? "" : `, ${formatShare(visit.doseShare)} of the crown`;
  return `${capitalized(WORDS.remedy[remedy])}${length}${dose}`;
}

/** A shortening that reads as nothing in the reader's unit is left out rather than called zero. */
const shorteningInWords = (length: string): string => (/^0(\.0)? /.test(length) ? "" : ` by up to ${length}`);
