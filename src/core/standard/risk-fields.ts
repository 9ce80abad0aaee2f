import { z } from "zod";
import { ROAD_CLASSES } from "../model/surroundings.ts";
import { CERTAINTIES, DEFECTS, HAZARDS } from "../model/terms.ts";
import { OTHER_EXPOSURES } from "./risk-rules.ts";
import { sourceSchema } from "./source-schema.ts";
import usCommon from "./us-common.json" with { type: "json" };

const weight = z.number().min(0).max(1000);
const hazard = z.enum(HAZARDS);
const defect = z.enum(DEFECTS);
const certainty = z.enum(CERTAINTIES);
const exposure = z.enum([...ROAD_CLASSES, ...OTHER_EXPOSURES]);
const members = {
  belowMinimumWeight: weight,
  trainingWeight: weight,
  shortfallWeight: weight,
  overduePerYear: weight,
  overdueMost: weight,
  source: sourceSchema,
};

/** Weights that order work within a budget; the common ones where a standard has none. */
export const riskRules = z
  .strictObject({
    ...members,
    hazardWeights: z.record(hazard, weight),
    defectWeights: z.record(defect, weight),
    certaintyWeights: z.record(certainty, z.number().min(0).max(1)),
    exposureWeights: z.record(exposure, weight),
  })
  .prefault(usCommon.risk as never)
  .meta({ description: "Weights that order work within a budget: a policy, not a measurement" });

/** The same with every member free to be left out, for files of changes. */
export const riskChanges = z
  .strictObject({
    ...members,
    hazardWeights: z.partialRecord(hazard, weight),
    defectWeights: z.partialRecord(defect, weight),
    certaintyWeights: z.partialRecord(certainty, z.number().min(0).max(1)),
    exposureWeights: z.partialRecord(exposure, weight),
  })
  .partial();
