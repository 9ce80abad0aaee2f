import type { Finding } from "../../core/model/finding.ts";
import type { Plan } from "../../core/model/plan.ts";
import { type ClosureEvent, closureEvents } from "./closure-events.ts";
import { type FeedMetadata, metadataFaults } from "./feed-metadata.ts";
import { partOfLine } from "./road-lines.ts";
import { stableUuid } from "./stable-uuid.ts";

/** Findings of a feed, so that a later feed can replace them. */
export const WZDX_FINDINGS = "wzdx-";

/** A feed as text, and what could not be put into it. */
export interface WzdxFeed {
  readonly text: string;
  readonly events: number;
  readonly findings: readonly Finding[];
}

/**
 * The closures of a plan's zones as a Work Zone Data Exchange 4.2 feed: a road event for each zone, line of a road and direction of travel, planned
 * and not verified. Dates are those in which the work is allowed, as no day is set yet; every event says so. Positions are planned from the
 * road's center line, cut at its ends. Throws RangeError for metadata that cannot stand in a feed, such as a placeholder for the publisher.
 */
export function wzdxFeed(plan: Plan, metadata: FeedMetadata, hasLift = true): WzdxFeed {
  const faults = metadataFaults(metadata);
  if (faults.length > 0) throw new RangeError(faults.join(" "));
  const sourceId = stableUuid(`${metadata.organization ?? metadata.publisher}\n${plan.planId}`);
  const { events, without } = closureEvents(plan, hasLift);
  const features = events.flatMap((event) => {
    const coordinates = partOfLine(event.line, event.fromM, event.toM);
    if (coordinates.length < 2) return [];
    if (!event.isWithLine) coordinates.reverse();
    return [roadEvent(event, coordinates, sourceId, plan.options.drive)];
  });
  const feed = {
    feed_info: {
      update_date: metadata.updated,
      version: "4.2",
      publisher: metadata.publisher.trim(),
      ...(metadata.contactEmail === undefined ? {} : { contact_email: metadata.contactEmail }),
      data_sources: [
        { data_source_id: sourceId, organization_name: (metadata.organization ?? metadata.publisher).trim() },
      ],
    },
    type: "FeatureCollection",
    features,
  };
  return {
    text: `${JSON.stringify(feed, null, 1)}\n`,
    events: features.length,
    findings: without.map(({ zone, reason }) => ({
      code: `${WZDX_FINDINGS}closure-left-out`,
      severity: "warning",
      layer: "plan",
      file: "wzdx.geojson",
      feature: zone.zoneId,
      field: null,
      value: null,
      reason: `The closure of zone ${zone.name} is not, or not wholly, in the feed: ${reason}.`,
      whatToDo: "Add center lines with names to the roads layer, or report this closure by hand.",
    })),
  };
}

function roadEvent(event: ClosureEvent, coordinates: number[][], sourceId: string, drive: "right" | "left") {
  const { zone, roadName, caseId } = event;
  const ends = [coordinates[0]!, coordinates[coordinates.length - 1]!];
  const lanes = lanesOf(event, drive);
  return {
    id: stableUuid(`${zone.zoneId}\n${event.line.feature.id}\n${event.isWithLine}\n${String(ends)}`),
    type: "Feature",
    properties: {
      core_details: {
        event_type: "work-zone",
        data_source_id: sourceId,
        road_names: [roadName],
        direction: "undefined",
        name: zone.name,
        description: `Tree pruning beside and over the road, planned: about one working day between ${zone.windowStart} and ${zone.windowEnd}, in daylight; the day is not set. The road authority confirms the closure.`,
      },
      start_date: `${zone.windowStart}T00:00:00Z`,
      end_date: `${zone.windowEnd}T23:59:59Z`,
      is_start_date_verified: false,
      is_end_date_verified: false,
      is_start_position_verified: false,
      is_end_position_verified: false,
      location_method: "channel-device-method",
      work_zone_type: "planned-moving-area",
      vehicle_impact: impactOf(caseId, drive),
      ...(lanes === null ? {} : { lanes }),
      types_of_work: [{ type_name: "roadside-work", is_architectural_change: false }],
    },
    geometry: { type: "LineString", coordinates },
  };
}

function impactOf(caseId: ClosureEvent["caseId"], drive: "right" | "left"): string {
  if (caseId === "flaggers") return "flagging";
  if (caseId === "one-way-closed") return "all-lanes-closed";
  if (caseId === "merge") return drive === "right" ? "some-lanes-closed-merge-left" : "some-lanes-closed-merge-right";
  return "all-lanes-open";
}

/** Every lane of the direction from the left, as far as it is known; null where the number of lanes is not recorded. */
function lanesOf({ line, caseId, isWalkClosed, isWithLine }: ClosureEvent, drive: "right" | "left") {
  const { lanes, across } = line.feature;
  if (lanes === null || across === undefined) return null;
  const own = across.oneway === 0 ? Math.ceil(lanes / 2) : lanes;
  const side = isWithLine === (drive === "right") ? "right" : "left";
  const row: { type: string; status: string }[] = Array.from({ length: own }, () => ({
    type: "general",
    status: "open",
  }));
  const nearest = row[own - 1]!;
  if (caseId === "flaggers") for (const lane of row) lane.status = "alternating-flow";
  if (caseId === "merge") nearest.status = "closed";
  if (caseId === "one-way-closed") for (const lane of row) lane.status = "closed";
  const isSideTaken = caseId !== "off-road" && caseId !== "beside-road" && caseId !== "flaggers";
  if (across.parking[side] === true) row.push({ type: "parking", status: isSideTaken ? "closed" : "open" });
  if ((across.shoulderM[side] ?? 0) > 0 || caseId === "shoulder") {
    row.push({ type: "shoulder", status: isSideTaken ? "closed" : "open" });
  }
  if (isWalkClosed) row.push({ type: "sidewalk", status: "closed" });
  // Left-most first; where one drives on the left, the side of the work is the left.
  const ordered = drive === "right" ? row : row.reverse();
  return ordered.map((lane, at) => ({ order: at + 1, ...lane }));
}
