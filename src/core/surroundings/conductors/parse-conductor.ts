import { ACSR_TABLE, acsrConductor, acsrOf, type Conductor } from "./acsr-table.ts";

const MAX_TEXT = 64;
/** Words around a size and a stranding that say nothing more about them. */
const FILLERS = ["acsr", "awg", "kcmil", "mcm", "bare", "al", "conductor", "aluminum", "aluminium"];

/**
 * The conductor of the table that a text such as `4/0 6/1 ACSR`, `ACSR 795 kcmil 26/7` or `#1/0 AWG` names; null for another, and where a
 * size has several strandings and none is named.
 */
export function parseConductor(text: string | null): Conductor | null {
  if (text === null || text.length > MAX_TEXT) return null;
  const words = text
    .toLowerCase()
    .split(/[\s,;()]/)
    .map((word) => (word.startsWith("#") ? word.slice(1) : word))
    .filter((word) => word !== "" && !FILLERS.includes(word));
  const [size, stranding, ...more] = words;
  if (size === undefined || more.length > 0) return null;
  return acsrConductor(size, stranding ?? null) ?? (stranding === undefined ? null : acsrConductor(stranding, size));
}

/** The conductor of the table nearest in weight, with that weight: where a line's weight is known and its type is not. Of equal ones the lighter. */
export function conductorByWeight(weightNPerM: number): Conductor {
  const rows = ACSR_TABLE.map(acsrOf);
  const nearest = rows.reduce((best, one) =>
    Math.abs(one.weightNPerM - weightNPerM) <= Math.abs(best.weightNPerM - weightNPerM) ? one : best,
  );
  return { ...nearest, weightNPerM };
}
