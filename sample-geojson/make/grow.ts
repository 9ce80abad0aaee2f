import type { Random } from "./random.ts";
import type { Species } from "./species.ts";

/** The day the town is looked at. Fixed, so that the files never depend on a clock. */
export const TOWN_YEAR = 2026;

/** How a tree was looked after. `limbed` is the lift a street's trees had in time; the others stay low. */
export type Care = "kept" | "partly" | "never" | "wild";

/** A tree with all its sizes, before the inventory loses some of them. */
export interface Grown {
  readonly species: Species;
  readonly ageYears: number;
  readonly dbhCm: number;
  readonly heightM: number;
  readonly crownBaseM: number;
  readonly crownRadiusM: number;
}

/**
 * Sizes of a tree some years after planting. The stem nears its mature diameter exponentially; height and crown follow the stem,
 * height faster; each tree differs by about a tenth. Crown base by care: lifted clear of lanes where `kept`, halfway where `partly`.
 */
export function grow(species: Species, ageYears: number, care: Care, random: Random): Grown {
  const vigor = 1 + 0.09 * random.spread();
  const share = 1 - Math.exp(-(ageYears + 3) / species.paceYears);
  const dbhCm = Math.max(1.5, species.matureDbhCm * share * Math.max(0.6, vigor));
  const reached = Math.min(1, dbhCm / species.matureDbhCm);
  const heightM = Math.max(1, species.matureHeightM * reached ** 0.7 * (1 + 0.07 * random.spread()));
  const radiusM = Math.max(0.4, species.matureRadiusM * reached ** 0.75 * (1 + 0.09 * random.spread()));
  return {
    species,
    ageYears,
    dbhCm,
    heightM,
    crownBaseM: crownBase(species, heightM, ageYears, care, random),
    crownRadiusM: Math.min(radiusM, heightM * 0.55),
  };
}

function crownBase(species: Species, heightM: number, ageYears: number, care: Care, random: Random): number {
  if (species.form === "shrub" || species.form === "hedge") return 0;
  const isConifer = species.form === "conifer";
  const natural = isConifer
    ? random.between(0.1, 0.9)
    : Math.min(0.45 * heightM, Math.max(0.9, heightM * random.between(0.11, 0.2)));
  if (care === "wild" || (isConifer && care !== "kept")) return Math.min(natural, heightM * 0.3);
  const nursery = Math.min(heightM * 0.36, random.between(1.4, 1.9));
  if (care === "never" || ageYears < 4) return Math.max(nursery, Math.min(natural, 2.4));
  const reachM = care === "kept" ? random.between(4.6, 6) : random.between(3.1, 5.2);
  return Math.max(nursery, Math.min(reachM, heightM * (care === "kept" ? 0.46 : 0.43)));
}
