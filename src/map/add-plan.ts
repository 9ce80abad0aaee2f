import type { ControlPosition, Map as MapLibreMap } from "maplibre-gl";
import { addBoughlineLayers } from "./add-boughline-layers.ts";
import { BoughlineControl, type ControlOptions } from "./boughline-control.ts";
import type { BoughlineHandle } from "./boughline-handle.ts";
import type { PlanInput } from "./open-plan-input.ts";
import type { TiledPlan } from "./tiles/tiled-plan.ts";

export interface PlanOptions extends Omit<ControlOptions, "plan"> {
  /** Corner of the map for the panel. Default `top-right`. */
  readonly position?: ControlPosition;
}

/**
 * Puts a plan on a map: layers at once, or as soon as the map's style and the plan are there, and a panel with legend and cards in a
 * corner. With `legend` and `card` both false there is no panel. What cannot be opened comes as an `error` event, never as an exception.
 *
 * @example const plan = addPlan(map, "/plan/current/", { fit: true });
 */
export function addPlan(
  map: MapLibreMap,
  from: PlanInput | TiledPlan,
  options: PlanOptions & Required<Pick<PlanOptions, "zoneTools">>,
): BoughlineControl;
export function addPlan(map: MapLibreMap, from: PlanInput | TiledPlan, options?: PlanOptions): BoughlineHandle;
export function addPlan(map: MapLibreMap, from: PlanInput | TiledPlan, options: PlanOptions = {}): BoughlineHandle {
  const { legend, card, zoneTools } = options;
  if (legend === false && card === false && zoneTools === undefined) return addBoughlineLayers(map, from, options);
  const control = new BoughlineControl({ ...options, plan: from });
  map.addControl(control, options.position);
  return control;
}
