import { z } from "zod";
import { columnMapSchema } from "./column-map-schema.ts";

/** The published JSON Schema (draft 2020-12) of the files that `--columns` takes, made of the schema that reads them. */
export function columnMapJsonSchema(): Record<string, unknown> {
  const { $schema, ...schema } = z.toJSONSchema(columnMapSchema, {
    io: "input",
    target: "draft-2020-12",
    reused: "ref",
  });
  return {
    $schema,
    title: "Boughline column map",
    description: "Which of a city's columns feeds which canonical field, by layer, with unit, meaning of 0 and words.",
    ...schema,
  };
}
