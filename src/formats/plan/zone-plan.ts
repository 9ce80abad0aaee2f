import type { Plan, ZoneOptions } from "../../core/model/plan.ts";
import type { Zone } from "../../core/model/zone.ts";
import { buildZones } from "../../core/zone/build-zones.ts";
import { readGeoJson } from "../geojson/read-geojson.ts";
import { joinBytes } from "../join-bytes.ts";
import type { FeedMetadata } from "../wzdx/feed-metadata.ts";
import { WZDX_FINDINGS, wzdxFeed } from "../wzdx/wzdx-feed.ts";
import { addCalendar } from "./calendar-file.ts";
import { openPlan } from "./open-plan.ts";
import { planFiles } from "./plan-files.ts";
import type { PlanOutput } from "./plan-request.ts";
import { bytesOf, planRules } from "./plan-rules.ts";
import type { PlanSource } from "./plan-source.ts";
import { REVISION_NAMES } from "./revision-names.ts";
import { treesFile } from "./trees-file.ts";

/** What zones are made for. */
export interface ZoneRequest {
  /** Settings in place of the plan's own, one by one. */
  readonly zoning?: ZoneOptions;
  /** Makes all drafts anew, except locked ones, instead of beginning with those the plan has. */
  readonly anew?: boolean;
  /** Zones as they were edited by hand, taken as they are instead of being made. */
  readonly zones?: readonly Zone[];
  /** Who answers for a feed of the closures; left out writes none. */
  readonly feed?: FeedMetadata;
}

/**
 * The next revision of a plan, with its next visits grouped into work zones, and where asked a feed of their closures; everything else as it was.
 * Throws {@link RefusedInput} when the revision's own files cannot be used, and RangeError for settings or metadata that cannot.
 */
export async function zonePlan(source: PlanSource, revision: number, request: ZoneRequest = {}): Promise<PlanOutput> {
  const { plan: opened } = await openPlan(source);
  const plan: Plan = {
    ...opened,
    options: { ...opened.options, ...zoningOf(opened, request.zoning) },
    zones:
      request.anew === true
        ? opened.zones.filter(({ state, isLocked }) => state !== "draft" || isLocked === true)
        : opened.zones,
  };
  const rules = await planRules(source);
  const treeBytes = await bytesOf(source, "trees.geojson");

  const built = { ...plan, revision, zones: request.zones ?? buildZones(plan, rules.standard) };
  const feed = request.feed === undefined ? null : wzdxFeed(built, request.feed, plan.options.zoning?.hasLift ?? true);
  const findings = [
    ...plan.findings.filter(({ code }) => !code.startsWith(WZDX_FINDINGS)),
    ...rules.findings,
    ...(feed === null ? [] : feed.findings),
  ];
  const zoned = { ...built, findings };
  const files = planFiles(zoned, rules.columns, rules.standard, rules.json);
  const read = readGeoJson(treeBytes, { layer: "trees", file: "trees.geojson" });
  // The plan's own tree file holds its trees in order, so a feature's place is its tree's row.
  const byRow = { ...zoned, trees: zoned.trees.map((tree, row) => ({ ...tree, ordinal: row })) };
  files.set("trees.geojson", joinBytes(treesFile([read], byRow)));
  for (const name of REVISION_NAMES) {
    const bytes = files.has(name) ? null : await source.read(name);
    if (bytes !== null) files.set(name, bytes);
  }
  addCalendar(files, zoned, rules.standard);
  if (feed !== null) files.set("wzdx.geojson", new TextEncoder().encode(feed.text));
  return { planId: plan.planId, revision, files, findings };
}

function zoningOf({ options }: Plan, asked: ZoneOptions = {}): { zoning?: ZoneOptions } {
  const people = { ...options.zoning?.people, ...asked.people };
  const zoning = { ...options.zoning, ...asked, ...(Object.keys(people).length === 0 ? {} : { people }) };
  return Object.keys(zoning).length === 0 ? {} : { zoning };
}
