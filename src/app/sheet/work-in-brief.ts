import type { Prescription, Visit } from "../../core/model/prescription.ts";
import { type DisplayUnits, formatLength, formatShare } from "../../core/units/format-length.ts";
import { capitalized, WORDS } from "../words.ts";

/**
 * What a tree gets in a few words, with the dose of one visit: `Lift to 4.6 m, 14 % of the crown`; `No work yet`. A visit that only takes off what is
 * dead, or trains the tree, says that and not what a later one does: `Remedial, no live wood`.
 */
export function workInBrief(prescription: Prescription, visit: Visit | undefined, units: DisplayUnits): string {
  const { remedy, liftToM, shortenM } = prescription;
  if (remedy === "refer") return capitalized(WORDS.remedy.refer);
  if (remedy === "none") return prescription.urgency === "watch" ? "No work yet" : "No work";
  const own = visit?.tasks[0]?.remedy;
  if (visit !== undefined && own !== undefined && isAside(visit)) {
    return `${capitalized(WORDS.remedy[own])}, ${visit.doseShare > 0 ? `${formatShare(visit.doseShare)} of the crown` : "no live wood"}`;
  }
  const length =
    remedy === "lift" && liftToM !== null
      ? ` to ${formatLength(liftToM, units)}`
      : remedy === "shorten" && shortenM !== null
        ? shorteningInWords(formatLength(shortenM, units))
        : "";
  const dose = visit === undefined ? "" : `, ${formatShare(visit.doseShare)} of the crown`;
  return `${capitalized(WORDS.remedy[remedy])}${length}${dose}`;
}

/** Whether a visit clears nothing. */
const isAside = ({ tasks }: Visit): boolean =>
  tasks.every(({ remedy }) => remedy === "remedial" || remedy === "structural");

/** A shortening that reads as nothing in the reader's unit is left out rather than called zero. */
const shorteningInWords = (length: string): string => (/^0(\.0)? /.test(length) ? "" : ` by up to ${length}`);
