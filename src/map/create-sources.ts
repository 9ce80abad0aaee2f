import type { GeoJSONSourceSpecification } from "maplibre-gl";
import type { OpenedPlan } from "../formats/plan/open-plan.ts";
import { crownFeatures } from "./features/crown-features.ts";
import { encroachmentFeatures } from "./features/encroachment-features.ts";
import { figureFeatures } from "./features/figure-features.ts";
import { type PlanLook, planLook } from "./features/plan-look.ts";
import { surroundingFeatures } from "./features/surrounding-features.ts";
import { markFeatures } from "./features/tree-marks.ts";
import { zoneBands } from "./features/zone-bands.ts";
import { threadFeatures, zoneAreas, zoneEdges, zoneNames } from "./features/zone-features.ts";
import { SOURCES } from "./ids.ts";
import { solidsSource } from "./on-map/solids-in-view.ts";
import type { LayerOptions } from "./options.ts";
import { wordsWith } from "./words.ts";

/** Sources by their ids, as a style has them. */
export type PlanSources = Readonly<Record<string, GeoJSONSourceSpecification>>;

/** All sources of a plan; empty ones with null. */
export function createSources(opened: OpenedPlan | null, options: LayerOptions): PlanSources {
  const look = planLook(opened);
  return { ...farSources(look, options), ...closeSources(look, options) };
}

/** The sources that a map needs from the first look: surroundings, marks and zones. */
export function farSources(look: PlanLook | null, options: LayerOptions): PlanSources {
  const of = collectionsOf(look);
  return {
    [SOURCES.surroundings]: source(of(({ opened }) => surroundingFeatures(opened.plan.surroundings))),
    [SOURCES.sight]: source(
      of(({ opened }) => opened.sight),
      "id",
    ),
    ...zoneSources(look, options),
    ...markSource(look),
    [SOURCES.thread]: source(
      of(({ opened }) => threadFeatures(opened.plan, null)),
      "number",
    ),
    ...((options.parts ?? []).includes("solids") ? solidsSource([]) : {}),
  };
}

/** The sources that follow the zones alone, but for the way through one of them. */
export function zoneSources(look: PlanLook | null, options: LayerOptions): PlanSources {
  const words = wordsWith(options.words);
  const of = collectionsOf(look);
  return {
    [SOURCES.zones]: fine(
      of(({ opened }) => zoneAreas(opened.plan)),
      "zone",
    ),
    [SOURCES.zoneBands]: source(
      of(({ opened }) => zoneBands(opened.plan, words)),
      "zone",
    ),
    [SOURCES.zoneEdges]: fine(
      of(({ opened }) => zoneEdges(opened.plan)),
      "zone",
    ),
    // Few and large tiles, so that a name is not cut in two where tiles meet.
    [SOURCES.zoneNames]: {
      ...source(
        of(({ opened }) => zoneNames(opened.plan, words)),
        "zone",
      ),
      maxzoom: 15,
    },
  };
}

/** The source of the marks alone, for another date. */
export const markSource = (look: PlanLook | null): PlanSources => ({
  [SOURCES.trees]: source(
    collectionsOf(look)(({ opened, marks }) => markFeatures(opened.plan, marks)),
    "tree",
  ),
});

/**
 * The sources that are drawn close up only, and are most of a plan's bytes: crowns at true size, what of them is too close, and figures; of the
 * trees of some rows, or of all.
 */
export function closeSources(
  look: PlanLook | null,
  options: LayerOptions,
  rows: readonly number[] | null = null,
): PlanSources {
  const words = wordsWith(options.words);
  const units = options.units ?? look?.opened.plan.options.units ?? "metric";
  const asked = rows ?? (look?.opened.plan.trees ?? []).map(({ row }) => row);
  const of = collectionsOf(look);
  return {
    [SOURCES.crowns]: fine(
      of((from) => crownFeatures(from, asked)),
      "tree",
    ),
    [SOURCES.encroachments]: fine(
      of((from) => encroachmentFeatures(from, asked)),
      "conflict",
    ),
    [SOURCES.figures]: source(
      of((from) => figureFeatures(from, asked, units, words)),
      "tree",
    ),
  };
}

type Collection = GeoJSON.FeatureCollection;

/** Makes collections from a plan as it is shown; empty ones without a plan. */
const collectionsOf =
  (look: PlanLook | null) =>
  (make: (from: PlanLook) => Collection): Collection =>
    look === null ? { type: "FeatureCollection", features: [] } : make(look);

const source = (data: Collection, promoteId?: string): GeoJSONSourceSpecification => ({
  type: "geojson",
  data,
  ...(promoteId === undefined ? {} : { promoteId }),
});

/** Keeps all corners, and has tiles down to zoom 20, so that close up what is round stays round. */
const fine = (data: Collection, promoteId: string): GeoJSONSourceSpecification => ({
  ...source(data, promoteId),
  tolerance: 0.08,
  maxzoom: 20,
});
