import type { Place } from "../../model/plan.ts";
import { REGIONS } from "./equation-label.ts";

/**
 * Reference cities of the Urban Tree Database by state or province. The database names one city for each climate region; which region
 * stands for which state is our policy, by likeness of climate. States that span several climates take the one most people live in.
 */
const STATES: Readonly<Record<string, string>> = {
  CenFla: "US-FL US-PR US-VI",
  GulfCo: "US-SC US-LA US-MS US-AL",
  SacVal: "US-CA",
  InterW: "US-NM",
  LoMidW: "US-IN US-OH US-KY US-IL US-MO US-KS US-OK US-WV",
  MidWst: "US-MN US-WI US-MI US-IA US-NE US-ND US-SD CA-MB CA-SK CA-ON",
  NMtnPr: "US-CO US-WY US-MT CA-AB",
  NoEast: "US-NY US-NJ US-CT US-RI US-MA US-NH US-VT US-ME US-PA US-DE US-MD US-DC CA-QC CA-NB CA-NS CA-PE CA-NL",
  PacfNW: "US-OR US-WA US-AK CA-BC",
  Piedmt: "US-NC US-VA US-TN US-GA US-AR US-TX",
  SWDsrt: "US-AZ US-NV",
  TpIntW: "US-ID US-UT",
  Tropic: "US-HI US-GU",
};

const BY_STATE: ReadonlyMap<string, string> = new Map(
  Object.entries(STATES).flatMap(([region, states]) => states.split(" ").map((state) => [state, region] as const)),
);

/** The database region whose equations come first for a place's ISO 3166 code; null where none is near. */
export const referenceRegion = (isoCode: string | null): string | null =>
  isoCode === null ? null : (BY_STATE.get(isoCode.toUpperCase()) ?? null);

/** The region whose equations come first, and what chose it. */
export interface ChosenRegion {
  readonly region: string | null;
  readonly because: "climate" | "place" | "nothing";
}

/** The database region for a place: the climate that was given outranks the ISO code; null where neither says one. */
export function chooseRegion({ region, climate }: Place): ChosenRegion {
  if (climate != null && REGIONS.includes(climate)) return { region: climate, because: "climate" };
  const near = referenceRegion(region);
  return near === null ? { region: null, because: "nothing" } : { region: near, because: "place" };
}
