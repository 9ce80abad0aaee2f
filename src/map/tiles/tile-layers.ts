import { SOURCES } from "../ids.ts";

/** Zooms of a plan's tiles. Closer up the map draws the last ones larger: their unit is 3 to 8 cm, finer than crowns are measured. */
export const TILE_ZOOMS = { first: 0, last: 16 } as const;
/** Up to this zoom a tile holds thinned trees; from the next on all of them. */
export const LAST_THINNED_ZOOM = 13;
/** Zoom whose tiles are made one at a time with those of the next zoom: thinned marks, and all that stands around trees. */
export const MIDDLE_ZOOM = 12;
/** Zoom whose tiles are made one at a time with all below them: a square of 1.2 to 2.4 km. */
export const CELL_ZOOM = LAST_THINNED_ZOOM + 1;
/** Zoom from which tiles hold what is drawn at true size. */
export const TRUE_SIZE_FROM_ZOOM = 15;
/** Zoom from which tiles hold roads; other surroundings begin with the cells. */
export const ROADS_FROM_ZOOM = 9;

/** One layer of a plan's tiles: the source whose place it takes, the member that names its features, and what its members are. */
export interface PlanTileLayer {
  readonly source: string;
  readonly name: string;
  readonly id: string | null;
  readonly minZoom: number;
  readonly fields: Readonly<Record<string, "String" | "Number" | "Boolean">>;
}

const MARK_FIELDS = {
  tree: "String",
  urgency: "String",
  overdue: "Boolean",
  certainty: "String",
  remedy: "String",
  image: "String",
  farImage: "String",
  turn: "Number",
  quiet: "Boolean",
  order: "Number",
  due: "String",
  crew: "String",
  zone: "String",
  kinds: "String",
  shows: "Number",
} as const;
const ZONE_FIELDS = {
  zone: "String",
  name: "String",
  state: "String",
  urgency: "String",
  crew: "String",
  due: "String",
  pattern: "String",
} as const;

/** The layers of a plan's tiles by what is in them; names are part of the format. */
export const PLAN_TILE_LAYERS = {
  surroundings: {
    source: SOURCES.surroundings,
    name: "surroundings",
    id: null,
    minZoom: ROADS_FROM_ZOOM,
    fields: { layer: "String", kind: "String", name: "String", class: "String", px0: "Number", turn: "Number" },
  },
  sight: {
    source: SOURCES.sight,
    name: "sight",
    id: "id",
    minZoom: TRUE_SIZE_FROM_ZOOM,
    fields: { id: "String", part: "String", kind: "String", hidden_share: "Number" },
  },
  zones: { source: SOURCES.zones, name: "zones", id: "zone", minZoom: TRUE_SIZE_FROM_ZOOM, fields: ZONE_FIELDS },
  zoneBands: {
    source: SOURCES.zoneBands,
    name: "zone-bands",
    id: "zone",
    minZoom: MIDDLE_ZOOM,
    fields: { ...ZONE_FIELDS, shape: "String", detail: "String", order: "Number" },
  },
  zoneEdges: {
    source: SOURCES.zoneEdges,
    name: "zone-edges",
    id: "zone",
    minZoom: TRUE_SIZE_FROM_ZOOM,
    fields: ZONE_FIELDS,
  },
  zoneNames: {
    source: SOURCES.zoneNames,
    name: "zone-names",
    id: "zone",
    minZoom: TILE_ZOOMS.last,
    fields: { ...ZONE_FIELDS, text: "String" },
  },
  crowns: {
    source: SOURCES.crowns,
    name: "crowns",
    id: "tree",
    minZoom: TRUE_SIZE_FROM_ZOOM,
    fields: { ...MARK_FIELDS, part: "String" },
  },
  conflicts: {
    source: SOURCES.encroachments,
    name: "conflicts",
    id: "conflict",
    minZoom: TRUE_SIZE_FROM_ZOOM,
    fields: { ...MARK_FIELDS, conflict: "String", kind: "String" },
  },
  trees: {
    source: SOURCES.trees,
    name: "trees",
    id: "tree",
    minZoom: TILE_ZOOMS.first,
    fields: {
      ...MARK_FIELDS,
      row: "Number",
      at: "Number",
      bytes: "Number",
      conflictsAt: "Number",
      conflictsBytes: "Number",
      stands: "Number",
    },
  },
  figures: {
    source: SOURCES.figures,
    name: "figures",
    id: "tree",
    minZoom: TILE_ZOOMS.last,
    fields: { ...MARK_FIELDS, text: "String", text_us: "String", text_metric: "String" },
  },
} as const satisfies Record<string, PlanTileLayer>;

/** The file of a revision that holds its tiles. */
export const TILES_FILE = "plan.pmtiles";
