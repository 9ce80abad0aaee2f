import { z } from "zod";
import { KNOWN_HOW } from "../model/terms.ts";

/** Where a value was found. */
export const sourceSchema = z
  .strictObject({
    title: z.string().min(1),
    edition: z.string().nullable().default(null).meta({ description: "Edition, revision or date of the document" }),
    section: z.string().nullable(),
    known: z.enum(KNOWN_HOW).meta({ description: "Whether the source was read, quoted, recalled, or is a policy" }),
  })
  .meta({ id: "source", description: "Where a value was found" });
