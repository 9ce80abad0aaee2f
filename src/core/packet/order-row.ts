import { formatLength, formatShare } from "../units/format-length.ts";
import { CREW_WORDS, capitalized, placeText, treeName, whatText } from "./packet-words.ts";
import type { ZoneStop } from "./zone-stops.ts";

/** One line of the order of work. */
export interface OrderRow {
  readonly number: number;
  readonly treeId: string;
  readonly species: string;
  readonly place: string;
  readonly what: string;
  /** Share of live crown this visit takes, in words. */
  readonly dose: string;
  readonly notes: string;
}

/** A stop as a line of the order of work. Its notes name the crew, stages and overhead lines; the cautions in full are on its card. */
export function orderRow(stop: ZoneStop): OrderRow {
  const { tree, visit, prescription, number } = stop;
  const isStaged = prescription.visits.length > 1;
  const notes = [
    capitalized(CREW_WORDS[visit.crew]),
    ...(isStaged ? [`Visit ${visit.number} of ${prescription.visits.length}`] : []),
    ...(visit.overdue ? ["Overdue"] : []),
    ...lineNote(stop),
  ];
  return {
    number,
    treeId: tree.id,
    species: treeName(tree),
    place: placeText(tree),
    what: whatText(visit.tasks),
    dose: visit.doseShare > 0 ? formatShare(visit.doseShare) : "none",
    notes: notes.join(". "),
  };
}

/** A line is named within twice the approach distance of the crown, our policy: limbs fall and swing. */
function lineNote({ setting, units }: ZoneStop): string[] {
  if (setting === null || !setting.conductorsKnown) return ["Overhead lines not known"];
  const { conductor } = setting;
  if (conductor === null || conductor.crownGapM > 2 * conductor.approachM) return [];
  return [`Line ${formatLength(conductor.crownGapM, units)} from the crown`];
}
