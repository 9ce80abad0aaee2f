import type { ConflictKind } from "../../model/terms.ts";
import { formatLength } from "../../units/format-length.ts";
import { unique } from "../packet-words.ts";
import type { ZoneStop } from "../zone-stops.ts";

/** Kinds whose clearance is a distance, not a height above something. */
const DISTANCES: ReadonlySet<ConflictKind> = new Set(["building-side", "conductor"]);

/**
 * How far the cuts of a visit reach, in sentences in the reader's unit: the clearance each task is cut for, and the most that tips are
 * shortened by. Empty for a visit that cuts for no clearance.
 */
export function howFar({ visit, conflicts, prescription, units }: ZoneStop): string {
  const byId = new Map(conflicts.map((conflict) => [conflict.conflictId, conflict]));
  const sentences = visit.tasks.flatMap(({ targetM, conflictIds }) => {
    if (targetM === null) return [];
    return conflictIds.flatMap((id) => {
      const conflict = byId.get(id);
      if (conflict === undefined) return [];
      const thing = conflict.withName ?? conflict.kind.replaceAll("-", " ");
      const length = formatLength(targetM, units);
      return [
        DISTANCES.has(conflict.kind)
          ? `Leave ${length} free to ${thing}.`
          : `Free up to ${length} above the ground at ${thing}.`,
      ];
    });
  });
  const isShortened = visit.tasks.some(({ remedy }) => remedy === "shorten");
  if (isShortened && prescription.shortenM !== null) {
    sentences.push(`Shorten by at most ${formatLength(prescription.shortenM, units)}.`);
  }
  return unique(sentences).join(" ");
}
