import { z } from "zod";
import { parseDecimal, parseLengthM } from "../units/parse-length.ts";

// Compiled validators need `new Function`, which a strict content security policy forbids.
z.config({ jitless: true });

/** A length with its unit; a bare number would be read as meters by one reader and as feet by another. */
export const publishedLengthSchema = z
  .string()
  .meta({
    id: "length",
    description: "A length with its unit, as published; never a bare number",
    examples: ["14 ft", "13 ft 6 in", "80 in", "4.3 m"],
  })
  .transform((text, context) => {
    const lengthM = parseLengthM(text, "none");
    if (lengthM === null || lengthM < 0 || parseDecimal(text) !== null) {
      context.addIssue({ code: "custom", message: `Expected a length with its unit such as "14 ft", got "${text}"` });
      return z.NEVER;
    }
    return { text, lengthM };
  });

/** The same, in meters alone. */
export const lengthSchema = publishedLengthSchema.transform(({ lengthM }) => lengthM);
