import { usCommonSource } from "./parse-standard.ts";
import adaFloor from "./profiles/ada-floor.json" with { type: "json" };
import bikeway10 from "./profiles/bikeway-10.json" with { type: "json" };
import busStreets from "./profiles/bus-streets.json" with { type: "json" };
import californiaFireThreat from "./profiles/california-fire-threat.json" with { type: "json" };
import californiaWildland from "./profiles/california-wildland.json" with { type: "json" };
import cityStreet12Walk8 from "./profiles/city-street-12-walk-8.json" with { type: "json" };
import cityStreet14Walk7 from "./profiles/city-street-14-walk-7.json" with { type: "json" };
import cityStreet14Walk8 from "./profiles/city-street-14-walk-8.json" with { type: "json" };
import cityStreet15Walk8 from "./profiles/city-street-15-walk-8.json" with { type: "json" };
import cityStreet15Walk10 from "./profiles/city-street-15-walk-10.json" with { type: "json" };
import cityStreet16Walk8 from "./profiles/city-street-16-walk-8.json" with { type: "json" };
import corner25LotLine from "./profiles/corner-25-lot-line.json" with { type: "json" };
import corner25TwoTrunks from "./profiles/corner-25-two-trunks.json" with { type: "json" };
import corner30To50LotLine from "./profiles/corner-30-50-lot-line.json" with { type: "json" };
import fireLanes from "./profiles/fire-lanes.json" with { type: "json" };
import transmission from "./profiles/transmission.json" with { type: "json" };

/** A standard that ships. */
export interface ShippedStandard {
  readonly id: string;
  readonly title: string;
}

const ALL = [
  usCommonSource,
  cityStreet12Walk8,
  cityStreet14Walk7,
  cityStreet14Walk8,
  cityStreet15Walk8,
  cityStreet15Walk10,
  cityStreet16Walk8,
  busStreets,
  fireLanes,
  adaFloor,
  bikeway10,
  corner25LotLine,
  corner30To50LotLine,
  corner25TwoTrunks,
  californiaWildland,
  californiaFireThreat,
  transmission,
] as readonly ShippedStandard[];

/** The standards that ship, in the order they are listed to people: the one taken by default first. */
export const SHIPPED_STANDARDS: readonly ShippedStandard[] = ALL.map(({ id, title }) => ({ id, title }));

/** The JSON of a shipped standard by its id, whole or with `extends`; null for an id that is not shipped. */
export const shippedStandard = (id: string): unknown => ALL.find((one) => one.id === id) ?? null;
