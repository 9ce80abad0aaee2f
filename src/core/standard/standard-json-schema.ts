import { z } from "zod";
import { standardFileSchema } from "./override-schema.ts";

/** The published JSON Schema (draft 2020-12) of the files that `--standard` takes, made of the schema that reads them. */
export function standardJsonSchema(): Record<string, unknown> {
  const { $schema, ...schema } = z.toJSONSchema(standardFileSchema, { io: "input", target: "draft-2020-12" });
  return {
    $schema,
    title: "Boughline standard",
    description:
      "Clearance rules with their sources: a whole standard, or changes to a shipped one, which it names in `extends`.",
    ...schema,
  };
}
