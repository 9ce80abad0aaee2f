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
