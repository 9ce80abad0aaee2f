import { z } from "zod";
import { ROAD_CLASSES } from "../model/surroundings.ts";
import { CONFLICT_KINDS, HAZARDS, KNOWN_HOW } from "../model/terms.ts";
import { KMH_PER_MPH } from "../units/length.ts";
import { parseDecimal, parseLengthM } from "../units/parse-length.ts";
import { DATUMS } from "./standard.ts";

// Compiled validators need `new Function`, which a strict content security policy forbids.
z.config({ jitless: true });

/** A length with its unit; a bare number would be read as meters by one reader and as feet by another. */
const published = z
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
const length = published.transform(({ lengthM }) => lengthM);
const share = z.number().min(0).max(1);
const monthDay = z.string().regex(/^\d\d-\d\d$/);
const volts = z.number().min(0).nullable().default(null);
const region = z
  .string()
  .regex(/^[A-Z]{2}(-[A-Z0-9]{1,3})?$/)
  .meta({ description: "ISO 3166 code of a country or a part of one", examples: ["US", "US-CA"] });

export const sourceSchema = z
  .strictObject({
    title: z.string().min(1),
    edition: z.string().nullable().default(null).meta({ description: "Edition, revision or date of the document" }),
    section: z.string().nullable(),
    known: z.enum(KNOWN_HOW).meta({ description: "Whether the source was read, quoted, recalled, or is a policy" }),
  })
  .meta({ id: "source", description: "Where a value was found" });

/** One value of a standard that an override changed. */
export const changeSchema = z
  .strictObject({ path: z.string(), from: z.unknown(), to: z.unknown(), by: z.string(), source: sourceSchema })
  .meta({ id: "change", description: "A value that an override changed: what it was, what it is, who says so" });

export const hazardFields = z.strictObject({ kind: z.enum(HAZARDS), below: length });
export const floorFields = z.strictObject({ minimum: published, source: sourceSchema });

export const ruleFields = z.strictObject({
  id: z.string().min(1),
  kind: z.enum(CONFLICT_KINDS),
  protects: z.string(),
  minimum: published,
  clearTo: published,
  admits: z.array(z.enum(["shorten", "remove-limb", "lift"])),
  hazard: hazardFields.nullable(),
  floor: floorFields
    .nullable()
    .default(null)
    .meta({ description: "The law's least; a standard below it is told, not refused" }),
  region: region.nullable().default(null),
  datum: z.enum(DATUMS).nullable().default(null).meta({ description: "What heights are measured above" }),
  overV: volts.meta({ description: "Line-to-line voltage above which the rule holds" }),
  fromV: volts.meta({ description: "Line-to-line voltage from which the rule holds, itself included" }),
  upToV: volts.meta({ description: "Line-to-line voltage up to which the rule holds, itself included" }),
  belowV: volts.meta({ description: "Line-to-line voltage below which the rule holds" }),
  byAltitude: z
    .array(z.strictObject({ upTo: published, minimum: published }))
    .default([])
    .meta({ description: "Minimum by altitude above sea level; the rule's own minimum holds where it is unknown" }),
  source: sourceSchema,
});

export const ruleSchema = ruleFields
  .superRefine((rule, context) => {
    const fault = (path: string, message: string): void => context.addIssue({ code: "custom", message, path: [path] });
    if (rule.minimum.lengthM > rule.clearTo.lengthM) {
      fault("minimum", `Expected a minimum of at most clearTo, ${rule.clearTo.text}, got "${rule.minimum.text}"`);
    }
    const bands = rule.byAltitude;
    if (bands.some((band, at) => at > 0 && band.upTo.lengthM <= bands[at - 1]!.upTo.lengthM)) {
      fault("byAltitude", "Expected altitudes in ascending order");
    }
    if (bands.some((band) => band.minimum.lengthM > rule.minimum.lengthM)) {
      fault("byAltitude", "Expected the rule's own minimum, which holds at an unknown altitude, to be the largest");
    }
  })
  .transform(({ minimum, clearTo, hazard, floor, byAltitude, ...same }) => ({
    ...same,
    minimumM: minimum.lengthM,
    clearToM: clearTo.lengthM,
    published: minimum.text,
    publishedClearTo: clearTo.text,
    hazard: hazard === null ? null : { kind: hazard.kind, belowM: hazard.below },
    floor:
      floor === null ? null : { minimumM: floor.minimum.lengthM, published: floor.minimum.text, source: floor.source },
    byAltitude: byAltitude.map(({ upTo, minimum: least }) => ({ upToM: upTo.lengthM, minimumM: least.lengthM })),
  }));

export const widthFields = z.strictObject({
  min: length,
  typical: length,
  max: length,
  lane: length,
  speedMph: z.number(),
});
const width = widthFields.transform((given) => ({
  minM: given.min,
  typicalM: given.typical,
  maxM: given.max,
  laneM: given.lane,
  speedKmh: given.speedMph * KMH_PER_MPH,
}));

export const seasonFields = z.strictObject({
  id: z.string().min(1),
  genera: z.array(z.string()),
  appliesTo: z.enum(["all", "deciduous", "evergreen", "conifer", "spring-blooming", "bleeding"]),
  regions: z.array(region),
  avoidFrom: monthDay,
  avoidTo: monthDay,
  rank: z.enum(["law", "disease", "species", "preference"]),
  reason: z.string(),
  shiftsSouth: z.boolean(),
  source: sourceSchema,
});

export const sightFields = z.strictObject({
  ruleId: z.string(),
  windowLow: length,
  windowHigh: length,
  clearTo: length,
  setback: length,
  gapLeftS: z.number(),
  gapRightS: z.number(),
  extraLaneS: z.number(),
  signReach: length,
  source: sourceSchema,
});

const bands = z
  .array(
    z
      .strictObject({ upToV: z.number(), distance: length })
      .transform((given) => ({ upToV: given.upToV, distanceM: given.distance })),
  )
  .min(1)
  .refine((rows) => rows.every((row, at) => at === 0 || row.upToV > rows[at - 1]!.upToV), {
    message: "Expected voltages in ascending order",
  });

export const conductorFields = z.strictObject({
  assumedVoltageV: z.number().nullable(),
  approach: bands.meta({ description: "Worker approach distance by line-to-line voltage, itself included" }),
  equipmentApproach: bands
    .nullable()
    .default(null)
    .meta({ description: "Distance for cranes and loaders by line voltage, itself included" }),
  altitude: length.nullable().default(null).meta({ description: "Altitude of the place above sea level" }),
  assumedAttachment: length,
  assumedSagShare: share,
  source: sourceSchema,
});

export const pruningFields = z.strictObject({
  ceilingShare: share,
  matureShare: share,
  stressedShare: share,
  liveCrownRatio: share,
  interimCrownBaseShare: share,
  multiYearCeilingShare: share,
  maxStages: z.number().int(),
  cycleYears: z.number(),
  establishmentMonthsPerInch: z.strictObject({
    "2-6": z.number(),
    "7-8": z.number(),
    "9-13": z.number(),
    unknown: z.number(),
  }),
  establishmentMaxMonths: z.number(),
  establishedDbh: length,
  droopPerYear: length,
  regrowthShortenPerYear: length,
  regrowthRemovePerYear: length,
  source: sourceSchema,
});

export const nestingFields = z.strictObject({ from: monthDay, to: monthDay, source: sourceSchema });

export const crewFields = z.strictObject({
  groundReach: length,
  groundLimb: length,
  minutesPerTree: z.array(
    z
      .strictObject({ dbhBelow: length, minutes: z.number() })
      .transform((given) => ({ dbhBelowM: given.dbhBelow, minutes: given.minutes })),
  ),
  setUpMinutes: z.number(),
  hoursPerDay: z.number(),
  source: sourceSchema,
});

export const lengthSchema = length;
export const provenanceSchema = z.record(z.string(), sourceSchema);

/** A whole standard, from its JSON with lengths as texts to meters. The one truth of the format. */
export const standardSchema = z.strictObject({
  $schema: z.string().optional(),
  id: z.string().min(1),
  title: z.string(),
  mergedFrom: z
    .array(z.string())
    .default([])
    .meta({ description: "Ids of the standards it was made of, first one first" }),
  changes: z.array(changeSchema).default([]).meta({ description: "What overrides changed, oldest first" }),
  rules: z.array(ruleSchema),
  widths: z.record(z.enum(ROAD_CLASSES), width),
  provenance: provenanceSchema,
  walkwayWidth: length,
  assumedBuildingHeight: length,
  storeyHeight: length,
  sight: sightFields.transform((given) => ({
    ruleId: given.ruleId,
    windowLowM: given.windowLow,
    windowHighM: given.windowHigh,
    clearToM: given.clearTo,
    setbackM: given.setback,
    gapLeftS: given.gapLeftS,
    gapRightS: given.gapRightS,
    extraLaneS: given.extraLaneS,
    signReachM: given.signReach,
    source: given.source,
  })),
  conductor: conductorFields.transform((given) => ({
    assumedVoltageV: given.assumedVoltageV,
    approach: given.approach,
    equipmentApproach: given.equipmentApproach,
    altitudeM: given.altitude,
    assumedAttachmentM: given.assumedAttachment,
    assumedSagShare: given.assumedSagShare,
    source: given.source,
  })),
  pruning: pruningFields.transform(
    ({ establishedDbh, droopPerYear, regrowthShortenPerYear, regrowthRemovePerYear, ...same }) => ({
      ...same,
      establishedDbhM: establishedDbh,
      droopMPerYear: droopPerYear,
      regrowthShortenMPerYear: regrowthShortenPerYear,
      regrowthRemoveMPerYear: regrowthRemovePerYear,
    }),
  ),
  seasons: z.array(seasonFields),
  nesting: nestingFields,
  deadlines: z.record(z.enum(HAZARDS), z.number()),
  crew: crewFields.transform((given) => ({
    groundReachM: given.groundReach,
    groundLimbM: given.groundLimb,
    minutesPerTree: given.minutesPerTree,
    setUpMinutes: given.setUpMinutes,
    hoursPerDay: given.hoursPerDay,
    source: given.source,
  })),
});
