import type { FaultRow } from "./fault-row.ts";

/** All rows, in order. */
export const FAULT_ROWS: readonly FaultRow[] = [];
