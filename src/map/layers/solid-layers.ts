import type { ExpressionSpecification } from "maplibre-gl";
import { SOURCES } from "../ids.ts";
import type { Theme } from "../tokens.ts";
import { urgencyTone } from "./expressions.ts";
import type { PlanLayer } from "./plan-layer.ts";

/** Zoom from which solids stand: farther out they would be grains. */
export const SOLIDS_FROM_ZOOM = 16.5;

const isPart = (...parts: string[]): ExpressionSpecification => ["in", ["get", "part"], ["literal", parts]];

/**
 * Trees as models of stacked card among plain blocks, with what encroaches on them in the urgency's tone, wires as ink and clearances as panes of glass.
 * Every fifth layer of a crown is darker, so that heights can be counted.
 */
export function solidLayers(theme: Theme): PlanLayer[] {
  const { vegetation, surroundings } = theme;
  const isSelected: ExpressionSpecification = ["boolean", ["feature-state", "selected"], false];
  const layer = (name: string, filter: ExpressionSpecification, color: string | ExpressionSpecification, opacity = 1) =>
    ({
      id: `boughline-solid-${name}`,
      type: "fill-extrusion",
      source: SOURCES.solids,
      metadata: { part: "solids" },
      minzoom: SOLIDS_FROM_ZOOM - 0.5,
      filter,
      paint: {
        "fill-extrusion-color": color,
        "fill-extrusion-base": ["get", "baseM"],
        "fill-extrusion-height": ["get", "topM"],
        "fill-extrusion-opacity": opacity,
        "fill-extrusion-vertical-gradient": false,
      },
    }) satisfies PlanLayer;
  return [
    layer("buildings", isPart("building"), surroundings.building),
    layer("trunks", isPart("trunk"), vegetation.trunk),
    layer("crowns", isPart("crown"), [
      "case",
      isSelected,
      ["case", ["get", "isFifth"], theme.quiet, vegetation.edge],
      ["get", "isFifth"],
      vegetation.dot,
      vegetation.fill,
    ]),
    layer("encroachments", isPart("encroachment"), urgencyTone(theme)),
    layer("wires", isPart("wire", "pole"), surroundings.conductor),
    layer("clearances", isPart("clearance"), theme.focus, 0.11),
  ];
}
