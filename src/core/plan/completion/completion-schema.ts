import { z } from "zod";
import { DEFECTS } from "../../model/terms.ts";
import { MEASURED_LENGTHS } from "../../model/word.ts";
import { parseIsoDate } from "../../units/calendar.ts";
import { COMPLETION_VERSION, NOT_DONE_REASONS, OUTCOMES } from "./completion.ts";

// Compiled validators need `new Function`, which a strict content security policy forbids.
z.config({ jitless: true });

/** Most entries and longest texts that a completion may hold: far above a crew's day, and short enough to read before trusting. */
export const COMPLETION_LIMITS = { visits: 10_000, added: 1000, photos: 100, text: 4000, name: 256 } as const;

const name = z.string().max(COMPLETION_LIMITS.name);
const id = name.min(1);
const text = z.string().max(COMPLETION_LIMITS.text);
const photos = z
  .array(name)
  .max(COMPLETION_LIMITS.photos)
  .meta({ description: "File names; the photos stay where they are" });
const date = name.refine((value) => parseIsoDate(value) !== null, { error: "is not a date YYYY-MM-DD" });
const time = name.refine(isUtcTime, { error: "is not a time in UTC such as 2027-03-12T14:05:00Z" });
/** Heights of trees end at 130 m, diameters at 15 m: the largest that live are 116 m and 11 m. */
const heightM = z.number().min(0).max(130);
const place = z
  .strictObject({
    lonDeg: z.number().min(-180).max(180),
    latDeg: z.number().min(-90).max(90),
    from: z.enum(["device", "map"]),
    accuracyM: z.number().min(0).nullable(),
  })
  .nullable();

const visit = z
  .strictObject({
    visitId: id,
    treeId: id,
    outcome: z.enum(OUTCOMES),
    reason: z.enum(NOT_DONE_REASONS).nullable(),
    date,
    who: name,
    crownBaseM: heightM.nullable(),
    headroomM: heightM.nullable(),
    doseShare: z.number().min(0).max(1).nullable(),
    notes: text,
    photos,
    recordedAt: time,
  })
  .refine(({ outcome, reason }) => outcome === "done" || reason !== null, {
    path: ["reason"],
    error: "is missing: work that is not done, or not whole, needs one",
  })
  .refine(({ reason, notes }) => reason !== "other" || notes.trim() !== "", {
    path: ["notes"],
    error: "is empty: another reason is explained there",
  });

const said = {
  wordId: id,
  treeId: id,
  visitId: id.nullable(),
  on: date,
  by: name.min(1),
  why: z.string().max(2000),
  takenBack: z.null(),
};
const measurement = z.union([
  z.strictObject({ of: z.enum(MEASURED_LENGTHS), valueM: heightM }),
  z.strictObject({ of: z.literal("planted"), date }),
  z.strictObject({ of: z.literal("defect"), defect: z.enum(DEFECTS), isThere: z.boolean() }),
]);
/** What can be said on the spot beside the work: a stop, a note, a measurement, what an inspection found. */
const word = z.discriminatedUnion("kind", [
  z.strictObject({ ...said, kind: z.literal("do-not-prune"), value: z.strictObject({ until: date.nullable() }) }),
  z.strictObject({
    ...said,
    kind: z.literal("note"),
    value: z.strictObject({ text: z.string().min(1).max(2000) }),
  }),
  z.strictObject({ ...said, kind: z.literal("measurement"), value: measurement }),
  z.strictObject({
    ...said,
    kind: z.literal("inspected"),
    value: z.strictObject({
      conflictIds: z.array(z.string().max(1000)).max(100),
      found: z.enum(["conflict", "no-conflict", "seen"]),
    }),
  }),
]);

/** A completion as JSON. Unknown members are refused, so that nothing a crew wrote is dropped unread. */
export const completionSchema = z.strictObject({
  format: z.literal("boughline-completion"),
  version: z.literal(COMPLETION_VERSION),
  appVersion: name,
  planId: id,
  revision: z.int().min(1),
  zoneId: id,
  reportId: id,
  exportedAt: time,
  who: name,
  crewHours: z.number().min(0).max(10_000).nullable(),
  notes: text,
  visits: z.array(visit).max(COMPLETION_LIMITS.visits),
  addedTrees: z
    .array(
      z.strictObject({
        addedId: id,
        place,
        species: name,
        dbhM: z.number().min(0).max(15).nullable(),
        heightM: heightM.nullable(),
        notes: text,
        photos,
        recordedAt: time,
      }),
    )
    .max(COMPLETION_LIMITS.added),
  hazards: z
    .array(z.strictObject({ addedId: id, place, treeId: id.nullable(), notes: text.min(1), photos, recordedAt: time }))
    .max(COMPLETION_LIMITS.added),
  words: z.array(word).max(COMPLETION_LIMITS.visits).optional(),
});

/** Whether a text is a date and time of day in UTC, to the second or finer. */
function isUtcTime(value: string): boolean {
  if (value.length > 24 || parseIsoDate(value.slice(0, 10)) === null) return false;
  const match = /^T([01]\d|2[0-3]):[0-5]\d:[0-5]\d(\.\d{1,3})?Z$/.exec(value.slice(10));
  return match !== null;
}
