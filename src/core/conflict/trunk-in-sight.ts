import type { SightArea } from "../model/surroundings.ts";
import { formatLength } from "../units/format-length.ts";
import type { SearchContext } from "./search-context.ts";

/** Names a tree's trunk inside an area. */
export const trunkKey = (row: number, areaId: string): string => `${row} ${areaId}`;

/**
 * Notes that the trunk of the tree at hand stands inside an area of sight, and reports it where the standard lets no such trunk stand: wider than it
 * allows, of unknown width, or one too many in the area. No pruning cures a trunk.
 */
export function noteTrunk(context: SearchContext, area: SightArea): void {
  if (area.kind !== "sight-triangle") return;
  const { view, standard, options } = context;
  const { maxWidthM, maxCount } = standard.sight.trunks;
  const { dbhM } = view.tree;
  const place = area.roadName ?? "an intersection";
  const inside =
    context.trunkNumbers?.get(trunkKey(view.tree.row, area.id)) ?? (context.trunksInSight.get(area.id) ?? 0) + 1;
  context.trunksInSight.set(area.id, inside);
  const engineer = "Whether the trunk hides too much is for the traffic engineer; pruning does not cure it.";
  if (maxWidthM !== null && dbhM !== null && dbhM > maxWidthM) {
    const [is, allowed] = [formatLength(dbhM, options.units), formatLength(maxWidthM, options.units)];
    context.findOnTree(
      "trunk-in-sight-triangle",
      "info",
      area.id,
      `The trunk, ${is} thick, stands inside a sight triangle of ${place}, where trunks up to ${allowed} may stand.`,
      engineer,
    );
  } else if (maxWidthM !== null && dbhM === null) {
    context.findOnTree(
      "trunk-in-sight-triangle",
      "info",
      area.id,
      `The trunk, of unknown thickness, stands inside a sight triangle of ${place}, where trunks up to ${formatLength(maxWidthM, options.units)} may stand.`,
      `Measure it. ${engineer}`,
    );
  } else if (maxCount !== null && inside > maxCount) {
    context.findOnTree(
      "trunk-in-sight-triangle",
      "info",
      area.id,
      `It is trunk number ${inside} inside one sight triangle of ${place}, where ${maxCount} may stand.`,
      engineer,
    );
  }
}
