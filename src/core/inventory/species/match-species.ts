import type { Habit } from "../../model/terms.ts";
import type { SpeciesTraits } from "../../model/trees.ts";
import type { AllometryName } from "../allometry/allometry.ts";
import { type FoundRow, findRow } from "./find-row.ts";
import {
  BLEEDING_GENERA,
  type GrowthClass,
  NOT_SPRING_BLOOMING,
  SPRING_BLOOMING_GENERA,
  type TreeKind,
} from "./species-table.ts";

/** What a tree's names tell. */
export interface SpeciesMatch {
  readonly traits: SpeciesTraits;
  readonly allometry: AllometryName;
  readonly kind: TreeKind | null;
  /** Whether a misspelling was forgiven. */
  readonly isRespelled: boolean;
  /** Whether the name was read as a code such as `ACRU`. */
  readonly isCode: boolean;
  /** Whether the species column held a text that told nothing. */
  readonly isUnknownName: boolean;
}

/**
 * Meters a year by growth class: extension lists call up to 12 in (0.30 m) a year slow, 13 to 24 in (0.33 to 0.61 m) medium, 25 in (0.64 m)
 * and more fast; the figure inside each class is our policy.
 */
const HEIGHT_GROWTH_M: Readonly<Record<GrowthClass, number>> = { slow: 0.2, medium: 0.45, fast: 0.75 };

/** A crown's growth in radius as a share of half its growth in height, by shape; our policy. */
const RADIUS_SHARE: Readonly<Record<Habit, number>> = {
  ellipsoid: 1,
  dome: 1.2,
  vase: 1.2,
  paraboloid: 1,
  cone: 0.7,
  column: 0.3,
};

interface KindDefaults {
  readonly label: string;
  readonly habit: Habit;
  readonly growth: GrowthClass;
  readonly matureHeightM: number;
  readonly databaseType: string;
}

/** What a tree gets when only its kind is known; from memory, our policy. */
const KINDS: Readonly<Record<TreeKind, KindDefaults>> = {
  "broadleaf-deciduous": {
    label: "deciduous broadleaves",
    habit: "ellipsoid",
    growth: "medium",
    matureHeightM: 15,
    databaseType: "BD",
  },
  "broadleaf-evergreen": {
    label: "evergreen broadleaves",
    habit: "ellipsoid",
    growth: "medium",
    matureHeightM: 12,
    databaseType: "BE",
  },
  "conifer-evergreen": { label: "conifers", habit: "cone", growth: "medium", matureHeightM: 20, databaseType: "CE" },
  "conifer-deciduous": {
    label: "deciduous conifers",
    habit: "cone",
    growth: "medium",
    matureHeightM: 20,
    databaseType: "CE",
  },
  palm: { label: "palms", habit: "dome", growth: "slow", matureHeightM: 12, databaseType: "PE" },
};

/** Cultivar words for narrow upright trees, compared in lower case; from memory. */
const NARROW_WORDS = [
  "fastigiat",
  "columnar",
  "pillar",
  "dawyck",
  "erecta",
  "italica",
  "armstrong",
  "bowhall",
  "skyrocket",
];

/** A function that matches a tree's names; it remembers its answers, so one serves a run. */
export function speciesMatcher(): (
  species: string | null,
  common: string | null,
  kind: TreeKind | null,
) => SpeciesMatch {
  const known = new Map<string, SpeciesMatch>();
  return (species, common, kind) => {
    const key = JSON.stringify([species, common, kind]);
    const match = known.get(key) ?? matchSpecies(species, common, kind);
    known.set(key, match);
    return match;
  };
}

/**
 * Traits by the species column, else the common name, each as a species or a genus; else by the kind that the inventory states; else
 * defaults with `matchedBy: "none"`. A species found by common name outranks a genus found in the species column only when it
 * belongs to that genus.
 */
function matchSpecies(species: string | null, common: string | null, kind: TreeKind | null): SpeciesMatch {
  const bySpecies = species === null ? null : findRow(species);
  const byCommon = common === null ? null : findRow(common);
  const found = better(bySpecies, byCommon);
  const isNarrow = NARROW_WORDS.some((word) => (species ?? "").toLowerCase().includes(word));
  if (found === null) return byKind(kind ?? kindOfName(common ?? species), species !== null || common !== null);
  const { row, by, isRespelled, isCode } = found;
  const genus = row.name.split(" ")[0]!;
  const size = row.matureHeightM < 8 ? "S" : row.matureHeightM <= 15 ? "M" : "L";
  return {
    traits: {
      ...growthOf(row.growth, isNarrow ? "column" : row.habit),
      matchedBy: by,
      matchedName: row.name,
      habit: isNarrow ? "column" : row.habit,
      ...leafOf(row.kind),
      matureHeightM: row.matureHeightM,
      bleeds: BLEEDING_GENERA.has(genus),
      genus,
      springBlooming: SPRING_BLOOMING_GENERA.has(genus) && !NOT_SPRING_BLOOMING.has(row.name),
    },
    allometry: { species: row.fittedName, genus, type: KINDS[row.kind].databaseType + size },
    kind: row.kind,
    isRespelled,
    isCode,
    isUnknownName: false,
  };
}

function better(bySpecies: FoundRow | null, byCommon: FoundRow | null): FoundRow | null {
  if (bySpecies === null || byCommon === null) return bySpecies ?? byCommon;
  const isSameGenus = byCommon.row.name.split(" ")[0] === bySpecies.row.name.split(" ")[0];
  return bySpecies.by === "genus" && byCommon.by === "species" && isSameGenus ? byCommon : bySpecies;
}

/** Last words of common names that leave the genus open but not the kind. */
const CONIFER_WORDS = ["cedar", "cypress", "pine", "conifer", "spruce", "fir"];

function kindOfName(name: string | null): TreeKind | null {
  const last =
    (name ?? "")
      .slice(0, 256)
      .toLowerCase()
      .split(/[^a-z]/)
      .filter(Boolean)
      .at(-1) ?? "";
  return CONIFER_WORDS.includes(last) ? "conifer-evergreen" : last === "palm" ? "palm" : null;
}

function byKind(kind: TreeKind | null, isUnknownName: boolean): SpeciesMatch {
  const { label, habit, growth, matureHeightM, databaseType } = KINDS[kind ?? "broadleaf-deciduous"];
  return {
    traits: {
      ...growthOf(growth, habit),
      matchedBy: kind === null ? "none" : "type",
      matchedName: kind === null ? "" : label,
      habit,
      ...leafOf(kind ?? "broadleaf-deciduous"),
      matureHeightM,
      bleeds: false,
      genus: "",
      springBlooming: false,
    },
    allometry: { species: null, genus: null, type: kind === null ? "" : databaseType },
    kind,
    isRespelled: false,
    isCode: false,
    isUnknownName,
  };
}

function growthOf(
  growth: GrowthClass,
  habit: Habit,
): Pick<SpeciesTraits, "heightGrowthMPerYear" | "radiusGrowthMPerYear" | "growthSource"> {
  const heightGrowthMPerYear = HEIGHT_GROWTH_M[growth];
  return {
    heightGrowthMPerYear,
    radiusGrowthMPerYear: Number(((heightGrowthMPerYear / 2) * RADIUS_SHARE[habit]).toFixed(4)),
    growthSource: `growth class ${growth} of extension lists, ${heightGrowthMPerYear} m a year; radius by our policy`,
  };
}

const leafOf = (kind: TreeKind): Pick<SpeciesTraits, "isEvergreen" | "isConifer"> => ({
  isEvergreen: kind === "broadleaf-evergreen" || kind === "conifer-evergreen" || kind === "palm",
  isConifer: kind === "conifer-evergreen" || kind === "conifer-deciduous",
});
