import { formatShare } from "../units/format-length.ts";
import { CREW_WORDS, capitalized, placeText, treeName, unique, whatText } from "./packet-words.ts";
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

export function orderRow(stop: ZoneStop): OrderRow {
  const { tree, visit, prescription, number } = stop;
  const isStaged = prescription.visits.length > 1;
  const notes = unique([
    capitalized(CREW_WORDS[visit.crew]),
    ...(isStaged ? [`Visit ${visit.number} of ${prescription.visits.length}`] : []),
    ...(visit.overdue ? ["Overdue"] : []),
    ...prescription.cautions,
  ]);
  return {
    number,
    treeId: tree.id,
    species: treeName(tree),
    place: placeText(tree),
    what: whatText(visit.tasks),
    dose: formatShare(visit.doseShare),
    notes: notes.map((note) => note.replace(/\.$/, "")).join(". "),
  };
}
