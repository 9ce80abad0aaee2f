import { z } from "zod";
import { completionSchema } from "./completion-schema.ts";

/** The completion as a JSON Schema (draft 2020-12), for programs that write one; `docs/completion.schema.json` is made from it. */
export function completionJsonSchema(): object {
  return {
    ...z.toJSONSchema(completionSchema, { target: "draft-2020-12" }),
    title: "Boughline completion",
    description:
      "What a crew reports of one zone. Lengths in meters, shares from 0 to 1, times in UTC. Beyond this schema: work that is not whole needs a reason, another reason words in the notes, and no visit comes twice.",
  };
}
