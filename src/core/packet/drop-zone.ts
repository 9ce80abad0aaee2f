import type { Tree } from "../model/trees.ts";

/** Added to the crown's radius for the drop zone, as where zones are drawn: our policy. */
const DROP_MARGIN_M = 3;

/** How far in meters from its trunk nobody but the crew may stand while a tree is worked on; the crew leader widens it for longer branches, slope or wind. */
export const dropZoneM = ({ radii }: Pick<Tree, "radii">): number =>
  Math.max(radii.northM, radii.eastM, radii.southM, radii.westM) + DROP_MARGIN_M;
