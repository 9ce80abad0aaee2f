import { z } from "zod";
import { CONFLICT_KINDS } from "../model/terms.ts";
import { DROOP_LOADS } from "./droop-rule.ts";
import { lengthSchema } from "./length-schema.ts";
import { sourceSchema } from "./source-schema.ts";

/** How much lower branches hang under a load of the season than on the day they were measured. */
export const droopFields = z.strictObject({
  id: z.string().min(1),
  load: z.enum(DROOP_LOADS).meta({ description: "Leaf and rain come together; ice comes alone" }),
  amount: lengthSchema,
  kinds: z.array(z.enum(CONFLICT_KINDS)).meta({ description: "What it hangs over" }),
  appliesTo: z.enum(["all", "deciduous", "evergreen"]),
  upToZone: z
    .number()
    .nullable()
    .default(null)
    .meta({ description: "Hardiness zone up to which it applies, itself included; an unknown zone counts as colder" }),
  source: sourceSchema,
});

/** In meters. */
export const droopRule = droopFields.transform(({ amount, ...same }) => ({ ...same, amountM: amount }));
