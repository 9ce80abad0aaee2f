import type { Drawing } from "../drawing.ts";
import { branchUnion } from "./branch-union.ts";
import { CUT_MM, label, numberedLabel, sawCut, wrongCut } from "./cut-marks.ts";

/** Removal at the branch collar: just outside ridge and collar, with the flush cut and the stub that are wrong. */
export function collarCut(): Drawing {
  const union = branchUnion(true);
  const { crotch, cutFrom, cutTo, ridgeEnd, onLimb, thicknessMm, collarFoot, shapes } = union;
  const collar = [collarFoot[0] + 3.4, collarFoot[1] - 6.4] as const;
  const stubTop = onLimb(18, -1.5);
  const stubFoot = onLimb(18, thicknessMm + 1.5);
  const ridge = [(crotch[0] + ridgeEnd[0]) / 2, (crotch[1] + ridgeEnd[1]) / 2] as const;
  return {
    widthMm: CUT_MM[0],
    heightMm: CUT_MM[1],
    shapes: [
      ...shapes,
      ...wrongCut([crotch[0], crotch[1] - 1], [collarFoot[0], collarFoot[1] + 2], 0.66),
      ...wrongCut(stubTop, stubFoot, 0.5),
      ...sawCut([cutFrom, cutTo], null),
      ...label(["bark ridge"], [40, 6], [39.5, 5.2], [ridge[0] + 0.5, ridge[1] - 0.5]),
      ...label(["no stub"], [64, 30], [66, 27.4], [stubFoot[0] - 0.6, stubFoot[1] - 1.2]),
      ...numberedLabel(1, ["cut here, just outside", "ridge and collar"], [53, 37.5], cutTo),
      ...label(["collar stays"], [46, 48.5], [45.5, 47.5], collar),
      ...label(["no flush cut"], [40, 55.5], [39.5, 54.5], [crotch[0], collarFoot[1] + 1.4]),
    ],
    description:
      "Side view of a limb on a trunk. The saw line 1 starts just outside the branch bark ridge above and ends just outside the collar, " +
      "the swelling under the limb; the collar stays. Crossed out: a flush cut along the trunk and a cut farther out that leaves a stub.",
  };
}
