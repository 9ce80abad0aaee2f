import type { Conflict } from "../../model/conflict.ts";
import type { SightArea, SightKind } from "../../model/surroundings.ts";
import type { Standard } from "../../standard/standard.ts";
import type { SightEnvelope, Surroundings } from "../../surroundings/surroundings.ts";

/** The conflicts with what each tree hides of the area it is in conflict with: {@link hiddenShares} of each. */
export function withHiddenShares(
  conflicts: readonly Conflict[],
  sight: readonly SightArea[],
  surroundings: Surroundings,
  standard: Standard,
): Conflict[] {
  return conflicts.map(hiddenShares(sight, surroundings, standard));
}

/**
 * Gives a conflict what its tree hides of the area it is in conflict with. One is a hazard where more of the area is hidden than the standard
 * allows, the tree hides some of it, and the conflict is there now and at least probable.
 */
export function hiddenShares(
  sight: readonly Pick<SightArea, "id" | "kind" | "hidden">[],
  surroundings: Surroundings,
  standard: Standard,
): (conflict: Conflict) => Conflict {
  const areas = new Map(sight.map((area) => [area.id, area]));
  const hazards = new Map<string, SightEnvelope["hazard"]>();
  for (const one of surroundings.envelopes) if (one.type === "sight") hazards.set(one.area.id, one.hazard);
  return (conflict) => {
    const area = conflict.withLayer === "sight" ? areas.get(conflict.withId) : undefined;
    const hidden = area?.hidden;
    if (area === undefined || hidden == null) return conflict;
    const own = hidden.trees.find(({ treeId }) => treeId === conflict.treeId);
    const isHazard =
      own !== undefined &&
      own.marginalShare + own.aloneShare > 0 &&
      hidden.share > limitOf(standard, area.kind) &&
      conflict.encroachmentM > 0 &&
      conflict.certainty !== "possible";
    const hazard = isHazard ? (hazards.get(conflict.withId) ?? null) : null;
    return { ...conflict, hiddenShare: own?.marginalShare ?? 0, hazard: hazard ?? conflict.hazard };
  };
}

function limitOf({ views }: Standard, kind: SightKind): number {
  const { triangle, curve, face } = views.hiddenLimits;
  return kind === "sight-triangle" ? triangle : kind === "curve" ? curve : face;
}
