import { z } from "zod";
import { ROAD_CLASSES, ROAD_CONTROLS } from "../model/surroundings.ts";
import { KMH_PER_MPH } from "../units/length.ts";
import { lengthSchema } from "./length-schema.ts";
import { CORNER_LINES, SIGHT_METHODS, SIGHT_VEHICLES, TURNS_ON_RED } from "./sight-rules.ts";
import { sourceSchema } from "./source-schema.ts";

const seconds = z.number().min(0).max(60);
const gap = z.strictObject({
  passengerS: seconds,
  singleUnitS: seconds,
  combinationS: seconds,
  perGradePercentS: seconds.meta({ description: "More for each percent of a steep upgrade of the driver's approach" }),
});
const gaps = {
  turnAcross: gap.meta({ description: "Case B1, from a stop across the near lanes" }),
  turnNear: gap.meta({ description: "Case B2, from a stop into the near lanes" }),
  crossing: gap.meta({ description: "Case B3, from a stop straight across" }),
  turnFromYield: gap.meta({ description: "Case C2, a turn from a yield" }),
  turnFromMajor: gap.meta({ description: "Case F, from the major road across oncoming traffic" }),
};
const extraLane = { passengerS: seconds, singleUnitS: seconds, combinationS: seconds };
const vehicleLength = { passenger: lengthSchema, singleUnit: lengthSchema, combination: lengthSchema };
const speedMph = z.number().positive();
const ascending = { message: "Expected speeds in ascending order" };
const isAscending = (rows: readonly { readonly speedMph: number }[]): boolean =>
  rows.every((row, at) => at === 0 || row.speedMph > rows[at - 1]!.speedMph);
const control = z.enum(ROAD_CONTROLS);
const assume = { minor: control, equalLocal: control, equalArterial: control };
const corner = {
  line: z.enum(CORNER_LINES).meta({ description: "What the legs are measured along; a curb is the pavement's edge" }),
  leg: lengthSchema,
  legByClass: z
    .partialRecord(z.enum(ROAD_CLASSES), lengthSchema)
    .meta({ description: "Legs where the larger of the two roads is of a class" }),
  drivewayLeg: lengthSchema,
  lotLineBehindEdge: lengthSchema.meta({ description: "How far lot lines are taken to run behind the pavement" }),
  uncontrolledLeg: lengthSchema
    .nullable()
    .meta({ description: "Legs from the center where nothing controls; null for the same as elsewhere" }),
};
const trunks = {
  maxWidth: lengthSchema.nullable().meta({ description: "Trunks up to this diameter may stand in the triangle" }),
  maxCount: z.number().int().min(0).nullable(),
};

const members = {
  ruleId: z.string().meta({ description: "The rule that holds the window's top, its clear-to and its datum" }),
  windowLow: lengthSchema,
  method: z.enum(SIGHT_METHODS).meta({ description: "Triangles from time gaps, or plain corners of fixed legs" }),
  vehicle: z.enum(SIGHT_VEHICLES),
  setback: lengthSchema,
  laneShare: z.number().min(0).max(1),
  gradeFromPercent: z.number(),
  approachLegs: z
    .array(z.strictObject({ speedMph, leg: lengthSchema }))
    .min(1)
    .refine(isAscending, ascending)
    .meta({ description: "Case A, nothing controls" }),
  yieldLegs: z
    .array(z.strictObject({ speedMph, leg: lengthSchema, travelS: seconds }))
    .min(1)
    .refine(isAscending, ascending)
    .meta({ description: "Case C1, crossing from a yield" }),
  yieldTurnLeg: lengthSchema,
  turnOnRed: z.enum(TURNS_ON_RED),
  signReach: lengthSchema,
  driveways: z.enum(["corner", "departure", "none"]),
  source: sourceSchema,
};

/** What a standard says about sight at intersections. */
export const sightFields = z.strictObject({
  ...members,
  gaps: z.strictObject(gaps),
  extraLane: z.strictObject(extraLane),
  vehicleLength: z.strictObject(vehicleLength),
  assume: z.strictObject(assume),
  corner: z.strictObject(corner),
  trunks: z.strictObject(trunks),
});

/** The same with every member free to be left out, for files of changes. */
export const sightChanges = z
  .strictObject({
    ...members,
    gaps: z
      .strictObject({
        turnAcross: gap.partial(),
        turnNear: gap.partial(),
        crossing: gap.partial(),
        turnFromYield: gap.partial(),
        turnFromMajor: gap.partial(),
      })
      .partial(),
    extraLane: z.strictObject(extraLane).partial(),
    vehicleLength: z.strictObject(vehicleLength).partial(),
    assume: z.strictObject(assume).partial(),
    corner: z.strictObject(corner).partial(),
    trunks: z.strictObject(trunks).partial(),
  })
  .partial();

const gapRule = (given: z.output<typeof gap>) => ({
  seconds: { passenger: given.passengerS, "single-unit": given.singleUnitS, combination: given.combinationS },
  perGradePercentS: given.perGradePercentS,
});

/** In meters and seconds. */
export const sightRules = sightFields.transform((given) => ({
  ruleId: given.ruleId,
  windowLowM: given.windowLow,
  method: given.method,
  vehicle: given.vehicle,
  setbackM: given.setback,
  laneShare: given.laneShare,
  gaps: {
    turnAcross: gapRule(given.gaps.turnAcross),
    turnNear: gapRule(given.gaps.turnNear),
    crossing: gapRule(given.gaps.crossing),
    turnFromYield: gapRule(given.gaps.turnFromYield),
    turnFromMajor: gapRule(given.gaps.turnFromMajor),
  },
  extraLaneS: {
    passenger: given.extraLane.passengerS,
    "single-unit": given.extraLane.singleUnitS,
    combination: given.extraLane.combinationS,
  },
  gradeFromPercent: given.gradeFromPercent,
  vehicleLengthM: {
    passenger: given.vehicleLength.passenger,
    "single-unit": given.vehicleLength.singleUnit,
    combination: given.vehicleLength.combination,
  },
  approachLegs: given.approachLegs.map((row) => ({ speedKmh: row.speedMph * KMH_PER_MPH, legM: row.leg })),
  yieldLegs: given.yieldLegs.map((row) => ({
    speedKmh: row.speedMph * KMH_PER_MPH,
    legM: row.leg,
    travelS: row.travelS,
  })),
  yieldTurnLegM: given.yieldTurnLeg,
  turnOnRed: given.turnOnRed,
  signReachM: given.signReach,
  assume: given.assume,
  driveways: given.driveways,
  corner: {
    line: given.corner.line,
    legM: given.corner.leg,
    legMByClass: given.corner.legByClass,
    drivewayLegM: given.corner.drivewayLeg,
    lotLineBehindEdgeM: given.corner.lotLineBehindEdge,
    uncontrolledLegM: given.corner.uncontrolledLeg,
  },
  trunks: { maxWidthM: given.trunks.maxWidth, maxCount: given.trunks.maxCount },
  source: given.source,
}));
