import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { FaultOptions, FaultResult, FaultRow } from "./fault-row.ts";

/** Runs a row in a folder of its own, which is gone afterwards; an error that the row throws is a row that did not hold. */
export async function runRow(row: FaultRow, options: Omit<FaultOptions, "work">): Promise<FaultResult> {
  const work = mkdtempSync(join(tmpdir(), `boughline-${row.id}-`));
  try {
    return await row.run({ ...options, work });
  } catch (error) {
    const reason = error instanceof Error ? (error.stack ?? error.message) : String(error);
    return { counts: "broken off", isHeld: false, remarks: [reason] };
  } finally {
    rmSync(work, { recursive: true, force: true });
  }
}
