import type { Plan } from "../model/plan.ts";
import type { SurroundingFeature } from "../model/surroundings.ts";
import type { Standard } from "../standard/standard.ts";
import type { Stop } from "./stops.ts";
import { streetLines } from "./streets/street-lines.ts";
import { Streets } from "./streets/streets.ts";
import type { ZoneSettings } from "./zone-settings.ts";

/** What every zone of a plan is figured with. */
export interface ZoneFrame {
  readonly standard: Standard;
  readonly settings: ZoneSettings;
  readonly units: "us" | "metric";
  readonly streets: Streets;
  /** Roads by their ids. */
  readonly roads: ReadonlyMap<string, SurroundingFeature>;
}

/** The frame of a plan, with the streets around the given stops. */
export function zoneFrame(plan: Plan, standard: Standard, settings: ZoneSettings, stops: readonly Stop[]): ZoneFrame {
  const roads = new Map<string, SurroundingFeature>();
  for (const feature of plan.surroundings) if (feature.layer === "roads") roads.set(feature.id, feature);
  const places = stops.map(({ tree }) => tree);
  return {
    standard,
    settings,
    units: plan.options.units,
    streets: new Streets(streetLines(plan.surroundings), places),
    roads,
  };
}
