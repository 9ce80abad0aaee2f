import { withThousands } from "../../core/units/with-thousands.ts";
import { featureFault } from "../geojson/feature-fault.ts";
import { UnreadableError } from "../geojson/open-document.ts";

/** Why a file cannot be read at all, to be thrown by a reader: what is wrong and what to do, one sentence each. */
export const unreadableFile = (
  code: string,
  reason: string,
  whatToDo: string,
  value: unknown = null,
): UnreadableError => new UnreadableError(featureFault(code, null, value, reason, whatToDo));

/** A file past one of the limits. `what` reads like `5,000,001 rows`. */
export const pastLimit = (what: string, limit: number, whatToDo: string): UnreadableError =>
  unreadableFile("too-large", `The file has ${what}; at most ${withThousands(limit)} are read.`, whatToDo);

/** A damaged file of a binary format. */
export const damaged = (format: string, what: string): UnreadableError =>
  unreadableFile("damaged", `The ${format} is damaged or cut short: ${what}.`, "Export or download the file anew.");
