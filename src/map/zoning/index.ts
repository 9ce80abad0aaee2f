import type { Map as MapLibreMap } from "maplibre-gl";
import type { BoughlineHandle } from "../boughline-handle.ts";
import { ZoneToolsControl, type ZoneToolsOptions } from "./zone-tools-control.ts";

export type { ZoneEdit } from "../../core/zone/edit/zone-edit.ts";
export type { ZoneEditFinding, ZoneMend } from "../../core/zone/edit/zone-edit-result.ts";
export type { DrawingPurpose } from "./drawing.ts";
export { ZoneToolsControl, type ZoneToolsOptions } from "./zone-tools-control.ts";
export type { ZoneToolsEvents } from "./zone-tools-events.ts";

/**
 * Puts the zone tools beside a plan that is on a map. Also what the option `zoneTools` of `addPlan` and of the control takes.
 *
 * @example const tools = addZoneTools(map, addPlan(map, "/plan/current/"));
 */
export function addZoneTools(
  map: MapLibreMap,
  handle: BoughlineHandle,
  options: ZoneToolsOptions = {},
): ZoneToolsControl {
  const control = new ZoneToolsControl(handle, options);
  // On a narrow map the plan's own panel takes the whole top.
  const position = map.getContainer().clientWidth < 640 ? "bottom-left" : "top-left";
  map.addControl(control, options.position ?? position);
  return control;
}
