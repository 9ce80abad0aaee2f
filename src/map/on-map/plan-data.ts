import type { Map as MapLibreMap } from "maplibre-gl";
import type { OpenedPlan } from "../../formats/plan/open-plan.ts";
import { closeSources, farSources, markSource, type PlanSources, zoneSources } from "../create-sources.ts";
import { type DatedTrees, type PlanLook, planLook, rezonedLook } from "../features/plan-look.ts";
import { CROWNS_FROM_ZOOM } from "../layers/tree-layers.ts";
import type { LayerOptions } from "../options.ts";
import { type MarkChanges, markChanges } from "./mark-changes.ts";
import { covers, type SeenGround, seenGround } from "./seen-ground.ts";

/** Most trees whose crowns are drawn at a time where only those in view are: on another date, and of a plan of more trees than this. */
const MOST_CLOSE = 6000;

/** What a plan gives the sources of a map: all of it, what follows a date, and what is brought only where the map looks closely. */
export class PlanData {
  readonly #map: MapLibreMap;
  #look: PlanLook | null = null;
  #options: LayerOptions = {};
  /** Whether what is drawn close up only is still to be brought, once the map has come to rest. */
  #owesCloseUp = false;
  /** Where crowns were brought for, where only those in view are. */
  #seen: SeenGround | null = null;

  constructor(map: MapLibreMap) {
    this.#map = map;
  }

  /** The plan as it is shown; null without one. */
  get look(): PlanLook | null {
    return this.#look;
  }

  /** All sources of a plan; those of another plan begin at that plan's own date. */
  sources(opened: OpenedPlan | null, options: LayerOptions): PlanSources {
    const dated = opened !== null && opened === this.#look?.opened ? this.#look.dated : null;
    this.#look = planLook(opened, dated);
    this.#options = options;
    return { ...farSources(this.#look, options), ...this.#close() };
  }

  /** Follows another date, or the plan's own with null: what changes in the marks, and the sources to be filled anew. */
  follow(dated: DatedTrees | null): { readonly marks: MarkChanges; readonly sources: PlanSources } | null {
    const before = this.#look;
    if (before === null || before.dated === dated) return null;
    this.#look = planLook(before.opened, dated);
    return { marks: markChanges(before.marks, this.#look?.marks ?? []), sources: this.#close() };
  }

  /** Follows the same plan with other zones, on the date it is shown for: what changes; null where more than the zones is another. */
  rezone(opened: OpenedPlan | null): { readonly marks: MarkChanges; readonly sources: PlanSources } | null {
    const before = this.#look;
    if (before === null || opened === null || !hasSameTrees(before.opened, opened)) return null;
    const look = rezonedLook(before, opened);
    this.#look = look;
    return { marks: markChanges(before.marks, look.marks), sources: zoneSources(look, this.#options) };
  }

  /** The marks' source as a whole, where changes would be no less. */
  marksSource(): PlanSources {
    return markSource(this.#look);
  }

  /** What is owed now that the map stands still; null for nothing. */
  atRest(): PlanSources | null {
    if (this.#look === null) return null;
    if (!this.#isByView(this.#look)) {
      if (!this.#owesCloseUp) return null;
      this.#owesCloseUp = false;
      return closeSources(this.#look, this.#options);
    }
    const isFar = this.#map.getZoom() < CROWNS_FROM_ZOOM;
    if (isFar || (this.#seen !== null && covers(this.#seen, seenGround(this.#map, 0)))) return null;
    return this.#close();
  }

  /** What is drawn close up, or, where the map shows none of it yet, nothing, so that the first look comes sooner. */
  #close(): PlanSources {
    this.#seen = null;
    this.#owesCloseUp = this.#look !== null && this.#map.getZoom() < CROWNS_FROM_ZOOM;
    if (this.#owesCloseUp || this.#look === null) return closeSources(null, this.#options);
    if (!this.#isByView(this.#look)) return closeSources(this.#look, this.#options);
    this.#seen = seenGround(this.#map, 0.5);
    return closeSources(this.#look, this.#options, this.#rowsSeen(this.#look, this.#seen));
  }

  /** Whether crowns are brought only where the map looks: all of many would take the map's memory, all on another date its time. */
  #isByView({ dated, marks }: PlanLook): boolean {
    return dated !== null || marks.length > MOST_CLOSE;
  }

  #rowsSeen({ opened, marks }: PlanLook, { west, south, east, north, zoom }: SeenGround): number[] {
    const rows: number[] = [];
    for (const { row, lonDeg, latDeg } of opened.plan.trees) {
      if (lonDeg < west || lonDeg > east || latDeg < south || latDeg > north) continue;
      if (marks[row]!.shows <= zoom + 1 && rows.push(row) >= MOST_CLOSE) break;
    }
    return rows;
  }
}

const hasSameTrees = ({ plan, ...one }: OpenedPlan, { plan: next, ...other }: OpenedPlan): boolean =>
  plan.trees === next.trees &&
  plan.conflicts === next.conflicts &&
  plan.prescriptions === next.prescriptions &&
  one.sight === other.sight;
