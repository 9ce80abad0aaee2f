import type { Feature, MultiPolygon, Point } from "geojson";
import type { OpenedPlan } from "../formats/plan/open-plan.ts";
import type { SolidsShown } from "./on-map/solids-in-view.ts";

/** What the plugin tells, by event name; each comes as the `detail` of a `CustomEvent`. */
export interface BoughlineEvents {
  /** A tree was selected or, with null, left; the feature is the plan's own with every original column. */
  readonly treeselect: { readonly treeId: string | null; readonly feature: Feature<Point> | null };
  /** A zone was selected or, with null, left. */
  readonly zoneselect: { readonly zoneId: string | null; readonly feature: Feature<MultiPolygon> | null };
  /** A plan's layers stand on the map; again after the host changed its style. */
  readonly planload: { readonly opened: OpenedPlan };
  /** Trees were stacked as solids, or taken down because the map is too far out. */
  readonly solidsdraw: SolidsShown;
  /** Something the plugin could not do; it never throws from a map's event. */
  readonly error: { readonly error: Error };
}
