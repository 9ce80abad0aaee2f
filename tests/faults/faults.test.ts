import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { bundleCommand } from "./bundle.ts";
import { runRow } from "./run-row.ts";

const bundle = mkdtempSync(join(tmpdir(), "boughline-bundle-"));
afterAll(() => rmSync(bundle, { recursive: true, force: true }));
process.env.BOUGHLINE_CLI ??= await bundleCommand(bundle);
// Only now: the rows look for the command as they are loaded.
const { FAULT_ROWS } = await import("./rows.ts");

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
