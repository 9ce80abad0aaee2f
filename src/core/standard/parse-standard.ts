import { z } from "zod";
import { ROAD_CLASSES } from "../model/surroundings.ts";
import { CONFLICT_KINDS, HAZARDS, KNOWN_HOW } from "../model/terms.ts";
import { KMH_PER_MPH } from "../units/length.ts";
import { parseDecimal, parseLengthM } from "../units/parse-length.ts";
import type { Standard } from "./standard.ts";
import usCommonJson from "./us-common.json" with { type: "json" };

// Compiled validators need `new Function`, which a strict content security policy forbids.
z.config({ jitless: true });

/** A length with its unit; a bare number would be read as meters by one reader and as feet by another. */
const length = z.string().transform((text, context) => {
  const lengthM = parseLengthM(text, "none");
  if (lengthM === null || lengthM < 0 || parseDecimal(text) !== null) {
    context.addIssue({ code: "custom", message: `Expected a length with its unit such as "14 ft", got "${text}"` });
    return z.NEVER;
  }
  return lengthM;
});
const share = z.number().min(0).max(1);
const monthDay = z.string().regex(/^\d\d-\d\d$/);
const source = z.object({ title: z.string(), section: z.string().nullable(), known: z.enum(KNOWN_HOW) });

const rule = z
  .object({
    id: z.string(),
    kind: z.enum(CONFLICT_KINDS),
    protects: z.string(),
    minimum: z.string(),
    clearTo: length,
    admits: z.array(z.enum(["shorten", "remove-limb", "lift"])),
    hazard: z.object({ kind: z.enum(HAZARDS), below: length }).nullable(),
    source,
  })
  .transform((given, context) => {
    const minimum = length.safeParse(given.minimum);
    const fault = !minimum.success
      ? `Expected a length with its unit such as "14 ft", got "${given.minimum}"`
      : minimum.data > given.clearTo
        ? `Expected a minimum of at most clearTo, got "${given.minimum}"`
        : null;
    if (fault !== null) context.addIssue({ code: "custom", message: fault, path: ["minimum"] });
    return { ...given, minimumM: minimum.success ? minimum.data : Number.NaN };
  })
  .transform((given) => ({
    id: given.id,
    kind: given.kind,
    protects: given.protects,
    minimumM: given.minimumM,
    clearToM: given.clearTo,
    published: given.minimum,
    admits: given.admits,
    hazard: given.hazard === null ? null : { kind: given.hazard.kind, belowM: given.hazard.below },
    source: given.source,
  }));

const width = z
  .object({ min: length, typical: length, max: length, lane: length, speedMph: z.number() })
  .transform((given) => ({
    minM: given.min,
    typicalM: given.typical,
    maxM: given.max,
    laneM: given.lane,
    speedKmh: given.speedMph * KMH_PER_MPH,
  }));

const season = z.object({
  id: z.string(),
  genera: z.array(z.string()),
  appliesTo: z.enum(["all", "deciduous", "evergreen", "conifer", "spring-blooming", "bleeding"]),
  regions: z.array(z.string()),
  avoidFrom: monthDay,
  avoidTo: monthDay,
  rank: z.enum(["law", "disease", "species", "preference"]),
  reason: z.string(),
  shiftsSouth: z.boolean(),
  source,
});

const schema = z.object({
  id: z.string(),
  title: z.string(),
  rules: z.array(rule),
  widths: z.record(z.enum(ROAD_CLASSES), width),
  provenance: z.record(z.string(), source),
  walkwayWidth: length,
  assumedBuildingHeight: length,
  storeyHeight: length,
  sight: z
    .object({
      ruleId: z.string(),
      windowLow: length,
      windowHigh: length,
      clearTo: length,
      setback: length,
      gapLeftS: z.number(),
      gapRightS: z.number(),
      extraLaneS: z.number(),
      signReach: length,
      source,
    })
    .transform((given) => ({
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
  conductor: z
    .object({
      assumedVoltageV: z.number().nullable(),
      approach: z.array(
        z
          .object({ upToV: z.number(), distance: length })
          .transform((given) => ({ upToV: given.upToV, distanceM: given.distance })),
      ),
      assumedAttachment: length,
      assumedSagShare: share,
      source,
    })
    .transform((given) => ({
      assumedVoltageV: given.assumedVoltageV,
      approach: given.approach,
      assumedAttachmentM: given.assumedAttachment,
      assumedSagShare: given.assumedSagShare,
      source: given.source,
    })),
  pruning: z
    .object({
      ceilingShare: share,
      matureShare: share,
      stressedShare: share,
      liveCrownRatio: share,
      interimCrownBaseShare: share,
      multiYearCeilingShare: share,
      maxStages: z.number().int(),
      cycleYears: z.number(),
      establishmentMonthsPerInch: z.object({
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
      source,
    })
    .transform(({ establishedDbh, droopPerYear, regrowthShortenPerYear, regrowthRemovePerYear, ...same }) => ({
      ...same,
      establishedDbhM: establishedDbh,
      droopMPerYear: droopPerYear,
      regrowthShortenMPerYear: regrowthShortenPerYear,
      regrowthRemoveMPerYear: regrowthRemovePerYear,
    })),
  seasons: z.array(season),
  nesting: z.object({ from: monthDay, to: monthDay, source }),
  deadlines: z.record(z.enum(HAZARDS), z.number()),
  crew: z
    .object({
      groundReach: length,
      groundLimb: length,
      minutesPerTree: z.array(
        z
          .object({ dbhBelow: length, minutes: z.number() })
          .transform((given) => ({ dbhBelowM: given.dbhBelow, minutes: given.minutes })),
      ),
      setUpMinutes: z.number(),
      hoursPerDay: z.number(),
      source,
    })
    .transform((given) => ({
      groundReachM: given.groundReach,
      groundLimbM: given.groundLimb,
      minutesPerTree: given.minutesPerTree,
      setUpMinutes: given.setUpMinutes,
      hoursPerDay: given.hoursPerDay,
      source: given.source,
    })),
});

/**
 * A standard in meters from its JSON value, or the faults as sentences with their paths. Lengths are texts with their unit as
 * published (`14 ft`, `80 in`).
 */
export function parseStandard(json: unknown): { standard: Standard } | { faults: string[] } {
  const result = schema.safeParse(json);
  if (!result.success) {
    return { faults: result.error.issues.map((issue) => `${issue.path.join(".")}: ${issue.message}`) };
  }
  const { walkwayWidth, assumedBuildingHeight, storeyHeight, ...same } = result.data;
  return {
    standard: {
      ...same,
      walkwayWidthM: walkwayWidth,
      assumedBuildingHeightM: assumedBuildingHeight,
      storeyHeightM: storeyHeight,
    },
  };
}

/** The standard that ships: common clearances in the United States. */
export function usCommon(): Standard {
  const parsed = parseStandard(usCommonJson);
  if ("faults" in parsed) throw new Error(`The shipped standard is faulty: ${parsed.faults.join("; ")}`);
  return parsed.standard;
}

/** The shipped standard as JSON, for the plan folder and for city overrides to start from. */
export const usCommonSource: unknown = usCommonJson;
