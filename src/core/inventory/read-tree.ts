import type { Point } from "geojson";
import type { SourceFeature } from "../model/feature.ts";
import type { Finding } from "../model/finding.ts";
import type { Form } from "../model/terms.ts";
import type { Tree } from "../model/trees.ts";
import { type CrownPlace, readCrownPlace } from "./crown-place.ts";
import type { FieldReader, LengthLimits } from "./field-reader.ts";
import type { FindingLog } from "./finding-log.ts";
import { habitOfForm } from "./habit-of-form.ts";
import { type MeasuredSizes, measuredSizes } from "./measured-sizes.ts";
import type { SpeciesMatch, speciesMatcher } from "./species/match-species.ts";
import type { TreeIds } from "./tree-ids.ts";
import { conditionOf, defectsOf, formWord, isEmptySite, saysDead } from "./tree-state.ts";

/** A tree as its columns give it, before missing sizes are filled in. */
export interface ReadTree {
  readonly fields: Omit<Tree, "row" | "height" | "crownBase" | "radius" | "radii">;
  readonly measured: MeasuredSizes;
  /** Where the crown stands beside the trunk, as far as it is given. */
  readonly crownPlace: CrownPlace;
  readonly match: SpeciesMatch;
  /** Whether the form was inferred from the sizes. */
  readonly isFormInferred: boolean;
}

export interface ReadContext {
  readonly read: FieldReader;
  readonly log: FindingLog;
  readonly matchSpecies: ReturnType<typeof speciesMatcher>;
  readonly nextId: TreeIds;
}

/** A low crown that starts this near to the ground makes a shrub; our policy. */
const GROUND_M = 0.15;
/** Below this height a broadleaf with its crown on the ground counts as a shrub; our policy. */
const SHRUB_HEIGHT_M = 3;

const CALIPER: LengthLimits = {
  leastM: 0.001,
  mostM: 0.5,
  zeroIsUnknown: true,
  why: "No tree is planted over 0.5 m thick",
};
const GROUND: LengthLimits = {
  leastM: -500,
  mostM: 9000,
  zeroIsUnknown: false,
  why: "The ground lies between 500 m below and 9,000 m above the sea",
};
const HEADROOM: LengthLimits = {
  leastM: 0.2,
  mostM: 30,
  zeroIsUnknown: true,
  why: "Headroom under a crown lies between 0.2 and 30 m",
};

/** The tree that a feature describes, or the finding for which it is set aside: no point, or no tree there any more. */
export function readTree(
  feature: SourceFeature<Point>,
  { read, log, matchSpecies, nextId }: ReadContext,
): ReadTree | { readonly setAside: Finding } {
  const text = (field: Parameters<FieldReader["text"]>[1]): string | null => read.text(feature, field);
  if (feature.geometry.type !== "Point") {
    return {
      setAside: log.about(feature, {
        code: "not-a-point",
        severity: "error",
        field: null,
        value: (feature.geometry as { type: string }).type,
        reason: "A tree is a point; this feature has another geometry",
        whatToDo: "Give trees as points",
      }),
    };
  }
  const species = withGenus(text("genus"), text("species"));
  const commonName = text("common_name");
  const conditionText = text("condition");
  const aliveText = text("alive");
  const stated = conditionOf(conditionText, aliveText);
  const condition = stated !== "gone" && (saysDead(species) || saysDead(commonName)) ? "dead" : stated;
  if (condition === "gone" || isEmptySite(species) || isEmptySite(commonName)) {
    return {
      setAside: log.about(feature, {
        code: "no-tree-there",
        severity: "info",
        field: condition === "gone" ? "condition" : "species",
        value: condition === "gone" ? (conditionText ?? aliveText) : isEmptySite(species) ? species : commonName,
        reason: "The inventory says that no tree stands here any more, or none yet",
        whatToDo: "Nothing, unless a tree stands there",
      }),
    };
  }

  const statedForm = formWord(text("form"));
  const stateWord = formWord(conditionText);
  const match = matchSpecies(species, commonName, statedForm.kind);
  const measured = measuredSizes(feature, read, log);
  const isPlain = statedForm.form === null || statedForm.form === "tree";
  const { form, isFormInferred } = formOf(
    isPlain ? (stateWord.form ?? statedForm.form) : statedForm.form,
    match,
    measured,
  );
  const { defects, unknown } = defectsOf(text("defects"));
  for (const words of unknown) {
    log.tally({
      code: "defect-not-understood",
      severity: "warning",
      field: "defects",
      what: "a defect in words that are not understood; no task is made of it",
      whatToDo: "Translate the city's words in the column map",
      example: words,
    });
  }
  if (conditionText !== null && conditionOf(conditionText, null) === null && stateWord.form === null) {
    log.tally({
      code: "condition-not-understood",
      severity: "info",
      field: "condition",
      what: "a condition in words that are not understood; taken as unknown",
      whatToDo: "Translate the city's words in the column map",
      example: conditionText,
    });
  }
  const [lonDeg, latDeg] = feature.geometry.coordinates as [number, number];
  return {
    match,
    measured,
    crownPlace: readCrownPlace(feature, read, log),
    isFormInferred,
    fields: {
      ordinal: feature.ordinal,
      id: nextId(feature),
      lonDeg,
      latDeg,
      species,
      commonName,
      form,
      habit: habitOfForm(form, match.traits.habit),
      dbhM: measured.dbhM,
      dbhBasis: measured.dbhM === null ? null : "measured",
      dbhLowM: measured.dbhClass?.lowM ?? null,
      dbhHighM: measured.dbhClass?.highM ?? null,
      planted: read.date(feature, "planted"),
      caliperAtPlantingM: read.lengthM(feature, "caliper_at_planting", CALIPER),
      lastPruned: read.date(feature, "last_pruned"),
      lastDoseShare: read.share(feature, "last_dose"),
      condition: condition ?? "unknown",
      defects,
      stems: read.count(feature, "stems") ?? measured.stems ?? 1,
      groundZM: read.lengthM(feature, "ground_z", GROUND),
      headroomOverRoadM: read.lengthM(feature, "headroom_over_road", HEADROOM),
      street: text("street"),
      address: text("address"),
      side: text("side"),
      owner: text("owner"),
      isProtected: read.flag(feature, "protected") ?? false,
      traits: match.traits,
    },
  };
}

/**
 * The botanical name of two columns: the genus stands before an epithet that comes without it (`Acer` and `rubrum`), and alone where there
 * is no species. A species column that begins with its genus is left as it is.
 */
function withGenus(genus: string | null, species: string | null): string | null {
  if (genus === null || species === null) return species ?? genus;
  return species.toLowerCase().startsWith(genus.toLowerCase()) || isEmptySite(species)
    ? species
    : `${genus} ${species}`;
}

/** Form as stated, else by species, else inferred: a low broadleaf that is leafy to the ground is taken for a shrub. */
function formOf(
  stated: Form | null,
  match: SpeciesMatch,
  measured: MeasuredSizes,
): { form: Form; isFormInferred: boolean } {
  if (stated !== null && stated !== "tree") return { form: stated, isFormInferred: false };
  if (match.kind === "palm") return { form: "palm", isFormInferred: false };
  if (match.traits.isConifer) return { form: "conifer", isFormInferred: false };
  const isLow = measured.height !== null && measured.height.valueM < SHRUB_HEIGHT_M;
  const isLeafyToGround = measured.crownBase !== null && measured.crownBase.valueM <= GROUND_M;
  if (stated === null && isLow && isLeafyToGround) return { form: "shrub", isFormInferred: true };
  return { form: "tree", isFormInferred: false };
}
