import type { Zone } from "../../model/zone.ts";
import { chosenTrees } from "./chosen-trees.ts";
import { freedFinding } from "./freed-finding.ts";
import { guardFinding } from "./guard-finding.ts";
import { NOTHING_CHOSEN } from "./nothing-chosen.ts";
import { withoutTrees } from "./without-trees.ts";
import type { ZoneDesk } from "./zone-desk.ts";
import type { EditOf } from "./zone-edit.ts";
import type { Outcome } from "./zone-edit-result.ts";
import { isOrAre, treesText, zoneFinding } from "./zone-finding.ts";

/** Zones without some trees; refused where none of them is in a zone, or one is in a zone that is locked or that a crew has. */
export function dropTrees(desk: ZoneDesk, zones: readonly Zone[], edit: EditOf<"drop">): Outcome {
  const chosen = chosenTrees(desk, zones, edit, [], null);
  const stops = chosen.elsewhere;
  const visitIds = new Set(stops.map(({ visit }) => visit.visitId));
  const touched = zones.filter((zone) => zone.visitIds.some((id) => visitIds.has(id)));
  const guard = guardFinding(touched, edit);
  if (guard !== null) return { refused: [guard] };
  const others = [...chosen.stops.map(({ tree }) => tree.id), ...chosen.withoutWorkIds, ...chosen.unknownIds];
  const inNone =
    others.length === 0
      ? []
      : [
          zoneFinding({
            code: "in-no-zone",
            severity: stops.length === 0 ? "error" : "info",
            treeIds: others,
            reason: `${treesText(others)} ${isOrAre(others)} in no zone.`,
            whatToDo: "Nothing is to be dropped.",
          }),
        ];
  if (stops.length === 0) return { refused: inNone.length > 0 ? inNone : [NOTHING_CHOSEN] };
  const { zones: left, findings } = withoutTrees(desk, zones, stops);
  return { zones: left, findings: [...inNone, ...findings, freedFinding(stops)] };
}
