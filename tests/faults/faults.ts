import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { bundleCommand } from "./bundle.ts";
import { runRow } from "./run-row.ts";

/** Sets faults and judges what is left: `npm run faults [-- f1 f2 ...] [--short] [--seed 1]`; `--help` lists the rows. Ends with 1 when a row does not hold. */
const words = process.argv.slice(2);
const bundle = mkdtempSync(join(tmpdir(), "boughline-bundle-"));
process.on("exit", () => rmSync(bundle, { recursive: true, force: true }));
if (!words.includes("--help")) process.env.BOUGHLINE_CLI ??= await bundleCommand(bundle);
// Only now: the rows look for the command as they are loaded.
const { FAULT_ROWS } = await import("./rows.ts");
const seedAt = words.indexOf("--seed");
const seed = seedAt < 0 ? 1 : Number(words[seedAt + 1]);
const isShort = words.includes("--short");
const asked = words.filter((word, at) => !word.startsWith("--") && (seedAt < 0 || at !== seedAt + 1));
const unknown = asked.filter((id) => !FAULT_ROWS.some((row) => row.id === id));

if (words.includes("--help")) {
  process.stdout.write(
    `${[
      "npm run faults [-- [--short] [--seed N] [f1 f2 ...]]",
      "",
      "Sets faults while the command works and judges what is left. All rows when none is named; --short sets few faults of each, as the tests do.",
      "One line a row; ends with 1 when a row does not hold. Needs Linux; strace and the right to mount for some rows, which say so where it is missing.",
      "",
      ...FAULT_ROWS.map(({ id, what }) => `  ${id.padEnd(4)} ${what}`),
    ].join("\n")}\n`,
  );
} else if (unknown.length > 0 || !Number.isSafeInteger(seed)) {
  process.stderr.write(`No such row: ${unknown.join(", ")}. --help lists them; --seed takes a whole number.\n`);
  process.exitCode = 2;
} else {
  for (const row of FAULT_ROWS.filter(({ id }) => asked.length === 0 || asked.includes(id))) {
    const missing = row.missing();
    if (missing !== null) {
      process.stdout.write(`${row.id} not tried: ${missing}\n`);
      continue;
    }
    const began = Date.now();
    const onProgress = (soFar: string): void => void process.stderr.write(`  ${row.id}: ${soFar}\n`);
    const { counts, isHeld, remarks } = await runRow(row, { isShort, seed, onProgress });
    const seconds = Math.round((Date.now() - began) / 1000);
    process.stdout.write(`${row.id} ${isHeld ? "held" : "FAILED"}: ${counts} (${seconds} s)\n`);
    for (const remark of remarks) process.stdout.write(`  ${remark}\n`);
    if (!isHeld) process.exitCode = 1;
  }
}
