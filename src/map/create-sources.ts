import type { GeoJSONSourceSpecification } from "maplibre-gl";
import type { OpenedPlan } from "../formats/plan/open-plan.ts";
import { crownFeatures } from "./features/crown-features.ts";
import { encroachmentFeatures } from "./features/encroachment-features.ts";
import { figureFeatures } from "./features/figure-features.ts";
import { surroundingFeatures } from "./features/surrounding-features.ts";
import { markFeatures, type TreeMark, treeMarks } from "./features/tree-marks.ts";
import { zoneBands } from "./features/zone-bands.ts";
import { threadFeatures, zoneAreas, zoneEdges, zoneNames } from "./features/zone-features.ts";
import { SOURCES } from "./ids.ts";
import type { LayerOptions } from "./options.ts";
import { wordsWith } from "./words.ts";

/** Sources by their ids, as a style has them. */
export type PlanSources = Readonly<Record<string, GeoJSONSourceSpecification>>;

/** All sources of a plan; empty ones with null. */
export function createSources(opened: OpenedPlan | null, options: LayerOptions): PlanSources {
  return { ...farSources(opened, options), ...closeSources(opened, options) };
}

/** The sources that a map needs from the first look: surroundings, marks and zones. */
export function farSources(opened: OpenedPlan | null, options: LayerOptions): PlanSources {
  const words = wordsWith(options.words);
  const of = collectionsOf(opened);
  return {
    [SOURCES.surroundings]: source(of(surroundingFeatures)),
    [SOURCES.sight]: source(
      of((from) => from.sight),
      "id",
    ),
    [SOURCES.zones]: fine(
      of((from) => zoneAreas(from.plan)),
      "zone",
    ),
    [SOURCES.zoneBands]: source(
      of((from) => zoneBands(from.plan, words)),
      "zone",
    ),
    [SOURCES.zoneEdges]: fine(
      of((from) => zoneEdges(from.plan)),
      "zone",
    ),
    // Few and large tiles, so that a name is not cut in two where tiles meet.
    [SOURCES.zoneNames]: {
      ...source(
        of((from) => zoneNames(from.plan, words)),
        "zone",
      ),
      maxzoom: 15,
    },
    [SOURCES.trees]: source(
      of((from, marks) => markFeatures(from.plan, marks)),
      "tree",
    ),
    [SOURCES.thread]: source(
      of((from) => threadFeatures(from.plan, null)),
      "number",
    ),
  };
}

/** The sources that are drawn close up only, and are most of a plan's bytes: crowns at true size, what of them is too close, and figures. */
export function closeSources(opened: OpenedPlan | null, options: LayerOptions): PlanSources {
  const words = wordsWith(options.words);
  const units = options.units ?? opened?.plan.options.units ?? "metric";
  const of = collectionsOf(opened);
  return {
    [SOURCES.crowns]: fine(
      of((from, marks) => crownFeatures(from.plan, marks)),
      "tree",
    ),
    [SOURCES.encroachments]: fine(
      of((from, marks) => encroachmentFeatures(from.plan, marks)),
      "conflict",
    ),
    [SOURCES.figures]: source(
      of((from, marks) => figureFeatures(from.plan, marks, units, words)),
      "tree",
    ),
  };
}

type Collection = GeoJSON.FeatureCollection;

/** Makes collections from a plan and its marks; empty ones without a plan. */
function collectionsOf(opened: OpenedPlan | null) {
  const marks = opened === null ? [] : treeMarks(opened.plan);
  return (make: (from: OpenedPlan, marks: readonly TreeMark[]) => Collection): Collection =>
    opened === null ? { type: "FeatureCollection", features: [] } : make(opened, marks);
}

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
