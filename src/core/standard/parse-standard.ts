import type { z } from "zod";
import { nameFaults } from "./name-faults.ts";
import type { Standard } from "./standard.ts";
import { standardSchema } from "./standard-schema.ts";
import usCommonJson from "./us-common.json" with { type: "json" };

/**
 * A whole standard in meters from its JSON value, or the faults as sentences with their paths. Lengths are texts with their unit as
 * published (`14 ft`, `80 in`). A file of changes is for `resolveStandard`.
 */
export function parseStandard(json: unknown): { standard: Standard } | { faults: string[] } {
  const result = standardSchema.safeParse(json);
  if (!result.success) return { faults: faultsOf(result.error, standardSchema) };
  const { $schema: _schema, walkwayWidth, assumedBuildingHeight, storeyHeight, canopyUnderside, ...same } = result.data;
  const twice = repeatedId(same.rules) ?? repeatedId(same.seasons) ?? repeatedId(same.droopAllowances);
  if (twice !== null) return { faults: [`${twice}: Expected an id once, got it twice`] };
  return {
    standard: {
      ...same,
      walkwayWidthM: walkwayWidth,
      assumedBuildingHeightM: assumedBuildingHeight,
      storeyHeightM: storeyHeight,
      canopyUndersideM: canopyUnderside,
    },
  };
}

/** The faults zod found as sentences, each with its path; a name that is not known with the nearest that are. */
export function faultsOf(error: z.ZodError, schema: z.ZodType): string[] {
  return error.issues.flatMap((issue) =>
    issue.code === "unrecognized_keys"
      ? nameFaults(issue.keys, issue.path, schema)
      : [`${issue.path.join(".")}: ${issue.message}`],
  );
}

/** The standard that ships: common clearances in the United States. */
export function usCommon(): Standard {
  const parsed = parseStandard(usCommonJson);
  if ("faults" in parsed) throw new Error(`The shipped standard is faulty: ${parsed.faults.join("; ")}`);
  return parsed.standard;
}

/** The shipped standard as JSON, for the plan folder and for city overrides to start from. */
export const usCommonSource: unknown = usCommonJson;

function repeatedId(all: readonly { readonly id: string }[]): string | null {
  const seen = new Set<string>();
  for (const { id } of all) {
    if (seen.has(id)) return id;
    seen.add(id);
  }
  return null;
}
