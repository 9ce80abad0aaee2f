import type { FaultRow } from "../fault-row.ts";
import { city } from "./l1-city.ts";
import { oneLine } from "./l2-one-line.ts";
import { largeBuilding } from "./l3-large-building.ts";
import { noHeights } from "./l4-no-heights.ts";
import { manyPackets } from "./l5-many-packets.ts";
import { largeReport } from "./l6-large-report.ts";

/** Loads to hold, in order; figures are of the machine that ran them, so that no test asserts them. */
export const LOADS: readonly FaultRow[] = [city, oneLine, largeBuilding, noHeights, manyPackets, largeReport].map(
  (load) => ({ ...load, isLong: true }),
);
