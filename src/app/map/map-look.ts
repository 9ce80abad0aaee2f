import type { OpenedPlan } from "../../formats/plan/open-plan.ts";
import type { DatedTrees, Part, TreeFilter } from "../../map/index.ts";
import type { MapFrame } from "./fit-places.ts";

/** What a map shows of a plan at one moment. */
export interface MapLook {
  readonly frame: MapFrame;
  /** Width of the map on the screen, in CSS pixels. */
  readonly widthPx: number;
  readonly opened: OpenedPlan;
  /** Which trees keep their marks; null for all. */
  readonly filter: TreeFilter | null;
  /** How the trees stand on another date; null for the plan's own. */
  readonly dated: DatedTrees | null;
  readonly treeId: string | null;
  readonly zoneId: string | null;
  /** Address of a base map's style; null for bare paper. */
  readonly basemap: string | null;
  readonly parts: readonly Part[];
}
