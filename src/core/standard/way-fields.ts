import { z } from "zod";
import { lengthSchema } from "./length-schema.ts";

const bounds = z.strictObject({ min: lengthSchema, typical: lengthSchema, max: lengthSchema });

const range = bounds
  .refine(({ min, typical, max }) => min <= typical && typical <= max, {
    message: "Expected min, typical and max in ascending order",
  })
  .transform(({ min, typical, max }) => ({ minM: min, typicalM: typical, maxM: max }));

const parking = { parallel: range, diagonal: range, perpendicular: range };
const shoulder = { freeway: range, other: range };
const oneway = { minShare: z.number().min(0).max(1), typicalShare: z.number().min(0).max(1) };
const beside = {
  walkways: z.enum(["recorded", "assumed", "off"]).meta({
    description:
      "Walkways and bikeways beside roads where no layer has them: those that the road records, on both sides of every street, or none",
  }),
  strip: range.meta({ description: "From the edge of the roadway to a walkway or bikeway beside it" }),
  bikeway: range.meta({ description: "A bikeway beside the roadway, one direction of travel" }),
};

const members = {
  laneMin: lengthSchema,
  laneMax: lengthSchema,
  bikeLane: range.meta({ description: "A bike lane on the roadway, on one side" }),
  fireLane: range.meta({
    description: "What a fire lane keeps free; its min holds even where its pavement is narrower",
  }),
  walkwayMin: lengthSchema,
  walkwayMax: lengthSchema,
  bikeway: range.meta({ description: "A two-way bikeway or shared path" }),
  widthEstimateError: z
    .number()
    .min(0)
    .max(1)
    .meta({ description: "Error of a width given as an estimate, as a share" }),
};

/** Widths of what a road is made of and of what runs beside it. */
export const wayFields = z.strictObject({
  ...members,
  parking: z.strictObject(parking).meta({ description: "A parking lane on one side, by how vehicles stand" }),
  shoulder: z.strictObject(shoulder).meta({ description: "A shoulder on one side" }),
  oneway: z.strictObject(oneway).meta({ description: "Of a class's width, what a one-way road of it has" }),
  beside: z.strictObject(beside),
});

/** The same with every member free to be left out, for files of changes. */
export const wayChanges = z
  .strictObject({
    ...members,
    bikeLane: bounds.partial(),
    fireLane: bounds.partial(),
    bikeway: bounds.partial(),
    parking: z.strictObject({
      parallel: bounds.partial().optional(),
      diagonal: bounds.partial().optional(),
      perpendicular: bounds.partial().optional(),
    }),
    shoulder: z.strictObject({ freeway: bounds.partial().optional(), other: bounds.partial().optional() }),
    oneway: z.strictObject(oneway).partial(),
    beside: z.strictObject({ ...beside, strip: bounds.partial(), bikeway: bounds.partial() }).partial(),
  })
  .partial();

/** In meters and plain shares. */
export const wayRules = wayFields.transform(({ laneMin, laneMax, walkwayMin, walkwayMax, ...same }) => ({
  ...same,
  laneMinM: laneMin,
  laneMaxM: laneMax,
  walkwayMinM: walkwayMin,
  walkwayMaxM: walkwayMax,
}));
