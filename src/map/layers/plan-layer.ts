import type { LayerSpecification } from "maplibre-gl";
import type { Part } from "../options.ts";

/**
 * A layer of the plan as plain style data. `metadata.part` names the part it belongs to; `metadata.trees` is true where the tree filter
 * applies to it, `metadata.flat` where it would only lie in the way of solids.
 */
export type PlanLayer = LayerSpecification & { metadata: { part: Part; trees?: boolean; flat?: boolean } };
