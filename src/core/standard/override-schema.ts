import { z } from "zod";
import { ROAD_CLASSES } from "../model/surroundings.ts";
import { CREWS, HAZARDS } from "../model/terms.ts";
import { droopFields } from "./droop-fields.ts";
import { acceptanceChanges, noticeChanges } from "./notice-fields.ts";
import { riskChanges } from "./risk-fields.ts";
import { sightChanges } from "./sight-fields.ts";
import {
  conductorFields,
  crewFields,
  floorFields,
  hazardFields,
  lengthSchema,
  nestingFields,
  provenanceSchema,
  pruningFields,
  ruleFields,
  ruleSchema,
  seasonFields,
  sourceSchema,
  standardSchema,
  widthFields,
} from "./standard-schema.ts";
import { viewChanges } from "./view-fields.ts";
import { wayChanges } from "./way-fields.ts";

const ruleChange = ruleFields
  .omit({ id: true, kind: true })
  .extend({ hazard: hazardFields.partial().nullable(), floor: floorFields.partial().nullable() })
  .partial();

/**
 * A file of changes to a shipped standard. Rules and seasons are named by their ids; what is left out stays as it was. A `source` inside a
 * part is the source of the values that stand beside it, one at the top of all others.
 */
export const overrideSchema = z.strictObject({
  $schema: z.string().optional(),
  extends: z.string().meta({ description: "Id of a shipped standard" }),
  id: z.string().min(1).optional(),
  title: z.string().min(1),
  source: sourceSchema.optional(),
  rules: z.record(z.string(), ruleChange).optional(),
  addRules: z.array(ruleSchema).optional(),
  widths: z.partialRecord(z.enum(ROAD_CLASSES), widthFields.extend({ source: sourceSchema }).partial()).optional(),
  ways: wayChanges.optional(),
  provenance: provenanceSchema.optional(),
  walkwayWidth: lengthSchema.optional(),
  assumedBuildingHeight: lengthSchema.optional(),
  storeyHeight: lengthSchema.optional(),
  canopyUnderside: lengthSchema.optional(),
  sight: sightChanges.optional(),
  views: viewChanges.optional(),
  conductor: conductorFields.partial().optional(),
  pruning: pruningFields
    .extend({ establishmentMonthsPerInch: pruningFields.shape.establishmentMonthsPerInch.partial() })
    .partial()
    .optional(),
  seasons: z.record(z.string(), seasonFields.omit({ id: true }).partial()).optional(),
  addSeasons: z.array(seasonFields).optional(),
  droopAllowances: z.record(z.string(), droopFields.omit({ id: true }).partial()).optional(),
  addDroopAllowances: z.array(droopFields).optional(),
  nesting: nestingFields.partial().optional(),
  deadlines: z.partialRecord(z.enum(HAZARDS), z.number()).optional(),
  crew: crewFields
    .extend({ people: z.partialRecord(z.enum(CREWS), z.number().min(1)) })
    .partial()
    .optional(),
  risk: riskChanges.optional(),
  notices: noticeChanges.optional(),
  acceptance: acceptanceChanges.optional(),
});

/** What `--standard` and `standard.json` may hold: a whole standard, or changes to a shipped one. */
export const standardFileSchema = z.union([standardSchema, overrideSchema]);
