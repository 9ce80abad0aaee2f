import { z } from "zod";
import { KMH_PER_MPH } from "../units/length.ts";
import { lengthSchema } from "./length-schema.ts";
import { sourceSchema } from "./source-schema.ts";

const share = z.number().min(0).max(1);
const rows = z
  .array(z.strictObject({ speedMph: z.number().positive(), distance: lengthSchema }))
  .min(2)
  .refine((given) => given.every((row, at) => at === 0 || row.speedMph > given[at - 1]!.speedMph), {
    message: "Expected speeds in ascending order",
  });

const eyeHeight = { passenger: lengthSchema, singleUnit: lengthSchema, combination: lengthSchema };
const curves = {
  ruleId: z.string().meta({ description: "The rule that holds the top of the window around a curve" }),
  windowLow: lengthSchema,
  objectHeight: lengthSchema.meta({ description: "Height of the thing that a driver must be able to stop for" }),
  leastTurnDeg: z.number().min(1).max(90),
  sideFriction: z
    .number()
    .min(0.05)
    .max(1)
    .meta({ description: "Side friction and superelevation together: caps the speed in tight curves" }),
};
const bottom = { rural: lengthSchema, urban: lengthSchema, signalOverRoad: lengthSchema, signalBeside: lengthSchema };
const height = { stop: lengthSchema, other: lengthSchema, signal: lengthSchema };
const faces = {
  signRuleId: z.string(),
  signalRuleId: z.string(),
  critical: rows.meta({ description: "From where signs must be seen that may ask for a stop" }),
  noncritical: rows.meta({ description: "From where all other signs must be seen" }),
  signals: rows.meta({ description: "From where, before the stop line, signal faces must be seen" }),
  width: lengthSchema,
  besideRoad: lengthSchema.meta({ description: "From the roadway's edge to a sign drawn on the road's line" }),
  coneDeg: z.number().min(1).max(80),
};
const hiddenLimits = { triangle: share, curve: share, face: share };
const members = { vehicleHeight: lengthSchema, source: sourceSchema };

/** What a standard says about lines of sight. */
const viewFields = z.strictObject({
  ...members,
  eyeHeight: z.strictObject(eyeHeight),
  curves: z.strictObject(curves),
  faces: z.strictObject({ ...faces, bottom: z.strictObject(bottom), height: z.strictObject(height) }),
  hiddenLimits: z
    .strictObject(hiddenLimits)
    .meta({ description: "Hidden shares above which the trees that hide something are a hazard" }),
});

/** The same with every member free to be left out, for files of changes. */
export const viewChanges = z
  .strictObject({
    ...members,
    eyeHeight: z.strictObject(eyeHeight).partial(),
    curves: z.strictObject(curves).partial(),
    faces: z
      .strictObject({ ...faces, bottom: z.strictObject(bottom).partial(), height: z.strictObject(height).partial() })
      .partial(),
    hiddenLimits: z.strictObject(hiddenLimits).partial(),
  })
  .partial();

const inMeters = (given: z.output<typeof rows>) =>
  given.map((row) => ({ speedKmh: row.speedMph * KMH_PER_MPH, distanceM: row.distance }));

/** In meters. */
export const viewRules = viewFields.transform(({ eyeHeight: eye, curves: curve, faces: face, ...given }) => ({
  eyeM: { passenger: eye.passenger, "single-unit": eye.singleUnit, combination: eye.combination },
  vehicleM: given.vehicleHeight,
  curves: {
    ruleId: curve.ruleId,
    windowLowM: curve.windowLow,
    objectM: curve.objectHeight,
    leastTurnDeg: curve.leastTurnDeg,
    sideFriction: curve.sideFriction,
  },
  faces: {
    signRuleId: face.signRuleId,
    signalRuleId: face.signalRuleId,
    critical: inMeters(face.critical),
    noncritical: inMeters(face.noncritical),
    signals: inMeters(face.signals),
    bottomM: face.bottom,
    heightM: face.height,
    widthM: face.width,
    besideRoadM: face.besideRoad,
    coneDeg: face.coneDeg,
  },
  hiddenLimits: given.hiddenLimits,
  source: given.source,
}));
