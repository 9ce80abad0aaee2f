import { EXIT } from "./exit-codes.ts";
import { boughline } from "./program.ts";
import { reportError } from "./report-error.ts";

process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  // The reader went away (`boughline ... | head`): nobody is left to tell.
  process.exit(error.code === "EPIPE" ? EXIT.done : EXIT.cannotWrite);
});
process.stderr.on("error", () => {});

try {
  process.exitCode = await run(process.argv);
} catch (error) {
  process.exitCode = reportError(error);
}

async function run(argv: readonly string[]): Promise<number> {
  let exitCode: number = EXIT.done;
  await boughline((code) => {
    exitCode = code;
  }).parseAsync([...argv]);
  return exitCode;
}
