import { CREWS, type Crew, URGENCIES, type Urgency } from "../../core/model/terms.ts";
import { type IsoDate, parseIsoDate } from "../../core/units/calendar.ts";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import { TILES_FILE } from "../../map/tiles/tile-layers.ts";
import { folderNow } from "../served-plan.ts";
import type { PageSettings } from "../settings.ts";

/** Most trees that a page reads whole: 200,000 with their conflicts took over 4 GB of a browser's memory. */
export const MOST_WHOLE_TREES = 100_000;

/** A served plan that is looked at by its map tiles. */
export interface LargePlan {
  /** Address of the revision's folder, with a slash at its end. */
  readonly address: string;
  readonly name: string;
  readonly revision: number;
  readonly asOf: IsoDate | null;
  readonly units: DisplayUnits;
  readonly trees: number;
  readonly conflicts: number;
  readonly zones: number;
  readonly byUrgency: Readonly<Record<Urgency, number>>;
  /** Trees by the crew of their next visit. */
  readonly byCrew: Readonly<Record<Crew, number>>;
}

/**
 * The plan served beside the page where it has map tiles and more trees than a page reads whole; null for any other, and where none is. `choice` is the page's
 * own query: `by=tiles` looks at any plan with tiles in this way, `by=whole` at none.
 */
export async function largePlan({ folder, name }: PageSettings, choice: string): Promise<LargePlan | null> {
  const by = new URLSearchParams(choice).get("by");
  if (by === "whole") return null;
  const address = await addressOf(folder !== null);
  if (address === null) return null;
  const manifest = await jsonAt(`${address}plan.json`);
  const plan = manifest === null ? null : largePlanOf(manifest, address, name);
  if (plan === null || (by !== "tiles" && plan.trees <= MOST_WHOLE_TREES)) return null;
  const tiles = await fetch(address + TILES_FILE, { headers: { Range: "bytes=0-0" } });
  await tiles.body?.cancel();
  return tiles.ok ? plan : null;
}

/** What a manifest says of its plan; null where it is none. Counts that it does not give are 0. */
export function largePlanOf(manifest: unknown, address: string, name: string | null): LargePlan | null {
  const { plan, revision, as_of, units, counts, inputs } = membersOf(manifest);
  if (typeof plan !== "string" || typeof revision !== "number") return null;
  const { trees, conflicts, zones, trees_by_urgency, next_visits_by_crew } = membersOf(counts);
  const file = Array.isArray(inputs) ? inputs.map(membersOf).find(({ layer }) => layer === "trees")?.file : null;
  return {
    address,
    name: name ?? (typeof file === "string" ? file : plan),
    revision,
    asOf: parseIsoDate(typeof as_of === "string" ? as_of : ""),
    units: units === "metric" ? "metric" : "us",
    trees: countIn(trees),
    conflicts: countIn(conflicts),
    zones: countIn(zones),
    byUrgency: countsBy(URGENCIES, trees_by_urgency),
    byCrew: countsBy(CREWS, next_visits_by_crew),
  };
}

async function addressOf(isFolder: boolean): Promise<string | null> {
  if (!isFolder) return "./plan/current/";
  const { revision, files } = await folderNow();
  return files.includes("plan.json") ? `./plan/revisions/${revision}/` : null;
}

async function jsonAt(address: string): Promise<unknown> {
  const response = await fetch(address);
  if (!response.ok) return null;
  try {
    return await response.json();
  } catch {
    // Servers answer with a page of their own where a file is missing.
    return null;
  }
}

const membersOf = (value: unknown): Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null ? (value as Record<string, unknown>) : {};

const countIn = (value: unknown): number => (typeof value === "number" && value >= 0 ? value : 0);

const countsBy = <K extends string>(keys: readonly K[], value: unknown): Record<K, number> => {
  const held = membersOf(value);
  return Object.fromEntries(keys.map((key) => [key, Object.hasOwn(held, key) ? countIn(held[key]) : 0])) as Record<
    K,
    number
  >;
};
