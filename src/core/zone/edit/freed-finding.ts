import { isPlanned, type Stop } from "../stops.ts";
import type { ZoneEditFinding } from "./zone-edit-result.ts";
import { isOrAre, treesText, zoneFinding } from "./zone-finding.ts";

/** Says that trees are in no zone now, so that no visit is lost without a word. */
export function freedFinding(stops: readonly Stop[]): ZoneEditFinding {
  const treeIds = stops.map(({ tree }) => tree.id);
  const planned = stops.filter(isPlanned).length;
  return zoneFinding({
    code: "in-no-zone-now",
    severity: "info",
    treeIds,
    reason: `${treesText(treeIds)} ${isOrAre(treeIds)} in no zone now.`,
    whatToDo:
      planned === 0
        ? "Their work is wanted in a later year only."
        : "Put them into another zone, or leave them to the next run of `zone`.",
    mends: [{ label: "Make them a zone", edit: { kind: "make", trees: { treeIds } }, when: "after" }],
  });
}
