import { z } from "zod";
import { NOTICE_KINDS } from "./notice-rules.ts";
import { sourceSchema } from "./source-schema.ts";
import usCommon from "./us-common.json" with { type: "json" };

const days = z.number().int().min(0).max(366);
const kind = z.enum(NOTICE_KINDS);
const members = {
  ownOwners: z
    .array(z.string().min(1))
    .meta({ description: "Words of an owner's name that mean the city's own trees, for which nobody is asked" }),
  source: sourceSchema,
};

/** Whom to tell before work, and how long before; the common rules where a standard has none. */
export const noticeRules = z
  .strictObject({ ...members, leadDays: z.record(kind, days) })
  .prefault(usCommon.notices as never)
  .meta({ description: "Calendar days before the day of the work by which somebody is told or asked" });

/** The same with every member free to be left out, for files of changes. */
export const noticeChanges = z.strictObject({ ...members, leadDays: z.partialRecord(kind, days) }).partial();

const acceptanceMembers = z.strictObject({
  share: z.number().min(0).max(1),
  leastTrees: z.number().int().min(0).max(10_000),
  source: sourceSchema,
});

/** How many finished trees are checked; the common rule where a standard has none. */
export const acceptanceRules = acceptanceMembers
  .prefault(usCommon.acceptance as never)
  .meta({ description: "Share of a zone's finished trees that is checked, and how many at least" });
export const acceptanceChanges = acceptanceMembers.partial();
