import { nearestNames } from "../core/standard/nearest-names.ts";
import { SHIPPED_STANDARDS, shippedStandard } from "../core/standard/shipped-standards.ts";
import { CommandError, inputError } from "./exit-codes.ts";
import { readJson } from "./read-input.ts";

export const STANDARD_HELP = "clearance rules: a shipped standard's name or a file; us-common when left out";

/** The shipped standards with what they are, for the end of a command's help. */
export const shippedStandardsHelp = (): string => {
  const widest = Math.max(...SHIPPED_STANDARDS.map(({ id }) => id.length));
  const lines = SHIPPED_STANDARDS.map(({ id, title }) => `  ${id.padEnd(widest)}  ${title}`);
  return ["", "Standards that --standard knows by name:", ...lines].join("\n");
};

/**
 * The JSON of `--standard`: of the shipped standard with that name, else of the file at that path. A text that is neither is refused with
 * the nearest names.
 */
export async function readStandard(text: string): Promise<unknown> {
  const shipped = shippedStandard(text);
  if (shipped !== null) return shipped;
  try {
    return await readJson(text);
  } catch (error) {
    if (!(error instanceof CommandError) || /[./\\]/.test(text)) throw error;
    const known = SHIPPED_STANDARDS.map(({ id }) => id);
    const nearest = nearestNames(text, known).join(", ");
    throw inputError(
      `${error.message} Nor is it a shipped standard: the nearest is ${nearest}; enrich --help lists all.`,
    );
  }
}
