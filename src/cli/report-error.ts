import { CommanderError } from "commander";
import { CommandError, EXIT } from "./exit-codes.ts";
import { CannotWriteError } from "./folder/cannot-write-error.ts";
import { printable } from "./printable.ts";

/** Tells the person what went wrong in one plain line and gives the exit code; a stack trace only with BOUGHLINE_DEBUG set. */
export function reportError(error: unknown): number {
  if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.done : EXIT.usage;
  if (error instanceof CommandError) {
    process.stderr.write(`${printable(error.message)}\n`);
    return error.exitCode;
  }
  if (error instanceof CannotWriteError) {
    process.stderr.write(`${printable(error.message)}\n`);
    return EXIT.cannotWrite;
  }
  const message = error instanceof Error ? error.message : String(error);
  process.stderr.write(`Internal fault, nothing was written: ${printable(message)}\n`);
  if (process.env.BOUGHLINE_DEBUG !== undefined && error instanceof Error) process.stderr.write(`${error.stack}\n`);
  return EXIT.internalFault;
}
