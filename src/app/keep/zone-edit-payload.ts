import type { Feature, MultiPolygon, Position } from "geojson";
import { z } from "zod";
import type { Zone } from "../../core/model/zone.ts";
import { zoneFeatures } from "../../core/plan/plan-features.ts";
import { zoneOf } from "../../core/plan/read-records.ts";
import type { OpenedPlan } from "../../formats/plan/open-plan.ts";
import { withZones } from "../../map/zoning/with-zones.ts";

// The page's content policy forbids the code that zod would write for speed.
z.config({ jitless: true });

const SCHEMA = z.object({
  /** What was done, for the reader. */
  label: z.string().max(500),
  /** The zones that are new or changed, as `zones.geojson` holds them. */
  zones: z.array(
    z.looseObject({ geometry: z.looseObject({}), properties: z.looseObject({ zone: z.string().min(1) }) }),
  ),
  /** Ids of all zones afterwards, in order; those that are missing are gone. */
  order: z.array(z.string().min(1)).max(100_000),
});

/** What an edit of the zones changed: the zones as they came out, so that going on with it never depends on how they were computed. */
export interface ZoneEditPayload {
  readonly label: string;
  readonly zones: readonly Feature<MultiPolygon>[];
  readonly order: readonly string[];
}

/** What led from one list of zones to another; zones that are the same objects did not change. */
export function zoneEditPayload(label: string, before: readonly Zone[], after: readonly Zone[]): ZoneEditPayload {
  const known = new Set(before);
  return {
    label: label.slice(0, 500),
    zones: zoneFeatures(after.filter((zone) => !known.has(zone))).features as readonly Feature<MultiPolygon>[],
    order: after.map(({ zoneId }) => zoneId),
  };
}

/** The plan with its zones as the payload has them; null for a payload that is none, or that fits other zones or trees than the plan's. */
export function applyZoneEdit(opened: OpenedPlan, payload: unknown): OpenedPlan | null {
  const parsed = SCHEMA.safeParse(payload);
  if (!parsed.success) return null;
  const features = parsed.data.zones as unknown as Feature<MultiPolygon>[];
  if (!features.every(({ geometry }) => isArea(geometry))) return null;
  const trees = new Set(opened.plan.trees.map(({ id }) => id));
  const changed = features.map(zoneOf);
  if (!changed.every(({ treeIds }) => treeIds.every((treeId) => trees.has(treeId)))) return null;
  const byId = new Map([...opened.plan.zones, ...changed].map((zone) => [zone.zoneId, zone]));
  const zones = parsed.data.order.map((zoneId) => byId.get(zoneId));
  if (!zones.every((zone) => zone !== undefined) || new Set(parsed.data.order).size !== zones.length) return null;
  return withZones(opened, zones);
}

const isPosition = (value: unknown): value is Position =>
  Array.isArray(value) && value.length >= 2 && value.every((number) => Number.isFinite(number));
const isRing = (value: unknown): boolean => Array.isArray(value) && value.length >= 4 && value.every(isPosition);
const isPolygon = (value: unknown): boolean => Array.isArray(value) && value.every(isRing);

function isArea({ type, coordinates }: Partial<MultiPolygon>): boolean {
  return type === "MultiPolygon" && Array.isArray(coordinates) && coordinates.every(isPolygon);
}
