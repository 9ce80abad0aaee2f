// A child of killed-runs.test.ts: writes revision after revision until it is killed. Prints a line when it begins.
import { CannotWriteError } from "../../../src/cli/folder/cannot-write-error.ts";
import { openPlanFolder } from "../../../src/cli/folder/plan-folder.ts";

const [dir = "", runs = "1", files = "1", bytes = "1"] = process.argv.slice(2);
process.stdout.write("begin\n");
try {
  for (let run = 0; run < Number(runs); run += 1) {
    const folder = await openPlanFolder(dir, { replace: true });
    const word = `${folder.nextRevision} `;
    const text = word.repeat(Math.floor(Number(bytes) / word.length));
    const list = Array.from({ length: Number(files) }, (_, index) => [`file-${index}.txt`, text] as const);
    await folder.commit(list, { plan: "test", as_of: "2026-11-02", event: "enrich" });
  }
} catch (error) {
  if (!(error instanceof CannotWriteError)) throw error;
  process.stderr.write(error.why);
  process.exitCode = 5;
}
