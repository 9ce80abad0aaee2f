import { z } from "zod";
import { RULE_CASE_NAMES } from "../model/load-cases.ts";
import { ROAD_CLASSES } from "../model/surroundings.ts";
import { CONFLICT_KINDS, CREWS, HAZARDS } from "../model/terms.ts";
import { KMH_PER_MPH } from "../units/length.ts";
import { droopRule } from "./droop-fields.ts";
import { lengthSchema, publishedLengthSchema } from "./length-schema.ts";
import { acceptanceRules, noticeRules } from "./notice-fields.ts";
import { riskRules } from "./risk-fields.ts";
import { sightRules } from "./sight-fields.ts";
import { sourceSchema } from "./source-schema.ts";
import { DATUMS } from "./standard.ts";
import { viewRules } from "./view-fields.ts";
import { wayRules } from "./way-fields.ts";

const published = publishedLengthSchema;
const length = lengthSchema;
const share = z.number().min(0).max(1);
const monthDay = z.string().regex(/^\d\d-\d\d$/);
const volts = z.number().min(0).nullable().default(null);
const region = z
  .string()
  .regex(/^[A-Z]{2}(-[A-Z0-9]{1,3})?$/)
  .meta({ description: "ISO 3166 code of a country or a part of one", examples: ["US", "US-CA"] });

export { lengthSchema, sourceSchema };

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
  loadCases: z
    .enum(RULE_CASE_NAMES)
    .nullable()
    .default(null)
    .meta({ description: "States of weather in which a conductor's distance must hold; null takes the common policy" }),
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
  species: z.array(z.string()).default([]).meta({
    description: "Scientific names it applies to, varieties and cultivars included; empty for all of its genera",
  }),
  precaution: z
    .string()
    .nullable()
    .default(null)
    .meta({ description: "What safety work in that time must heed, as a sentence" }),
  source: sourceSchema,
});

const bands = z
  .array(
    z
      .strictObject({ upToV: z.number(), distance: length })
      .transform((given) => ({ upToV: given.upToV, distanceM: given.distance })),
  )
  .min(1)
  .refine(areAscending, { message: "Expected voltages in ascending order" });

export const conductorFields = z.strictObject({
  assumedVoltageV: z.number().nullable(),
  approach: bands.meta({ description: "Worker approach distance by line-to-line voltage, itself included" }),
  equipmentApproach: bands
    .nullable()
    .default(null)
    .meta({ description: "Distance for cranes and loaders by line voltage, itself included" }),
  altitude: length.nullable().default(null).meta({ description: "Altitude of the place above sea level" }),
  assumedAttachment: length,
  assumedAttachmentByVoltage: z
    .array(
      z
        .strictObject({ upToV: z.number(), height: length })
        .transform((given) => ({ upToV: given.upToV, heightM: given.height })),
    )
    .default([])
    .refine(areAscending, { message: "Expected voltages in ascending order" })
    .meta({ description: "Assumed attachment height by line-to-line voltage, itself included" }),
  assumedSagShare: share
    .nullable()
    .default(null)
    .meta({ description: "Assumed sag as a share of the span; null takes the published example of 5.3 ft in 300 ft" }),
  poleClearing: z
    .strictObject({ radius: length, allBelow: length, source: sourceSchema })
    .transform((given) => ({ radiusM: given.radius, allBelowM: given.allBelow, source: given.source }))
    .nullable()
    .default(null)
    .meta({ description: "The cylinder about a pole, from its outside at the ground, that is kept clear" }),
  source: sourceSchema,
});

export const pruningFields = z.strictObject({
  ceilingShare: share,
  mediumShare: share.default(0.2).meta({ description: "Most of the live crown in a season, of trees half grown" }),
  matureShare: share,
  overMatureShare: share
    .default(0.1)
    .meta({ description: "Most of the live crown in a season, of the largest old trees" }),
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
  training: z
    .strictObject({
      cycleYears: z.number().positive(),
      untilHeight: length,
      untilYears: z.number(),
      share,
      source: sourceSchema,
    })
    .transform(({ untilHeight, ...same }) => ({ ...same, untilHeightM: untilHeight }))
    .nullable()
    .default(null)
    .meta({
      description:
        "Structural pruning of young trees: how often, up to which height and years from planting, the share it is counted with",
    }),
  source: sourceSchema,
});

const nestingDates = { from: monthDay, to: monthDay, source: sourceSchema };
export const nestingFields = z.strictObject({
  ...nestingDates,
  byRegion: z
    .array(z.strictObject({ regions: z.array(region).min(1), birds: z.string(), ...nestingDates }))
    .default([])
    .meta({ description: "Dates read for a region; there they hold in place of the general ones" }),
});

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
  people: z
    .record(z.enum(CREWS), z.number().min(1))
    .default({ ground: 2, aerial: 3, "line-clearance": 3, utility: 3 })
    .meta({ description: "People in a crew; a crew-hour is so many person-hours" }),
  source: sourceSchema,
});

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
  ways: wayRules,
  provenance: provenanceSchema,
  walkwayWidth: length,
  assumedBuildingHeight: length,
  storeyHeight: length,
  canopyUnderside: length.meta({ description: "Height under a roof on columns whose own is not recorded" }),
  sight: sightRules,
  views: viewRules,
  conductor: conductorFields.transform((given) => ({
    assumedVoltageV: given.assumedVoltageV,
    approach: given.approach,
    equipmentApproach: given.equipmentApproach,
    altitudeM: given.altitude,
    assumedAttachmentM: given.assumedAttachment,
    assumedAttachmentByVoltage: given.assumedAttachmentByVoltage,
    assumedSagShare: given.assumedSagShare,
    poleClearing: given.poleClearing,
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
  droopAllowances: z.array(droopRule).meta({ description: "How much lower branches hang under leaf, rain or ice" }),
  seasons: z.array(seasonFields),
  nesting: nestingFields,
  deadlines: z.record(z.enum(HAZARDS), z.number()),
  crew: crewFields.transform((given) => ({
    groundReachM: given.groundReach,
    groundLimbM: given.groundLimb,
    minutesPerTree: given.minutesPerTree,
    setUpMinutes: given.setUpMinutes,
    hoursPerDay: given.hoursPerDay,
    people: given.people,
    source: given.source,
  })),
  risk: riskRules,
  notices: noticeRules,
  acceptance: acceptanceRules,
});

function areAscending(rows: readonly { readonly upToV: number }[]): boolean {
  return rows.every((row, at) => at === 0 || row.upToV > rows[at - 1]!.upToV);
}
