import { describe, expect, it } from "vitest";
import { FAULT_ROWS } from "./rows.ts";
import { runRow } from "./run-row.ts";

// A few faults of each row; `npm run faults` sets them all.
describe("faults while the command works", () => {
  for (const row of FAULT_ROWS.filter(({ isLong }) => isLong !== true)) {
    const missing = row.missing();
    it.skipIf(missing !== null)(
      `${row.id}: ${row.what}${missing === null ? "" : ` (${missing})`}`,
      async () => {
        const result = await runRow(row, { isShort: true, seed: 1, onProgress: () => {} });
        expect(result.isHeld, [result.counts, ...result.remarks].join("\n")).toBe(true);
      },
      240_000,
    );
  }
});
