import { type Collection, collection, type Feature, type Properties } from "./geojson.ts";
import { TOWN_YEAR } from "./grow.ts";
import { type Random, randomStream } from "./random.ts";
import type { Site, SiteGuard } from "./site-guard.ts";

type Row = Record<string, string | number | boolean | null>;

/** `trees.geojson`: the inventory as the town keeps it, with its gaps and mistakes. */
export function trees(sites: readonly Site[], guard: SiteGuard): Collection {
  const random = randomStream("inventory");
  const features = sites.map((site, at): Feature => {
    const complete = inventoryRow(site, `T-${String(at + 1).padStart(4, "0")}`, random, guard);
    return { geometry: { type: "Point", point: site.point }, properties: withGaps(complete, random) };
  });
  return collection(features);
}

function inventoryRow(site: Site, id: string, random: Random, guard: SiteGuard): Row {
  const { tree, care } = site;
  const { species, ageYears } = tree;
  const row: Row = {
    id,
    species: species.name,
    common_name: species.common,
    form: species.form,
    dbh: round(tree.dbhCm, 0),
    height: round(tree.heightM, 1),
    crown_base: round(tree.crownBaseM, 1),
    crown_spread: round(2 * tree.crownRadiusM, 1),
    condition: conditionOf(random, ageYears),
    planted: null,
    last_pruned: null,
    street: site.street,
    address: site.address ?? (site.houseNumber === null ? null : `${site.houseNumber} ${site.street}`),
    side: site.side,
    owner: site.owner,
  };
  if (ageYears <= 2) {
    row.planted = dateIn(TOWN_YEAR - ageYears, ageYears === 0 ? [3, 4] : [3, 4, 10, 11], random);
    row.caliper_at_planting = random.pick([4, 5, 5, 6]);
  } else if (ageYears < 25 && random.chance(0.5)) {
    row.planted = dateIn(TOWN_YEAR - ageYears, [3, 4, 10, 11], random);
  }
  addPruning(row, care, ageYears, random);
  const defects = defectsOf(row.condition as string, ageYears, random);
  if (defects !== null) row.defects = defects;
  if (species.name.startsWith("Betula") || species.name.startsWith("Amelanchier")) row.stems = random.pick([1, 2, 3]);
  if (species.name.startsWith("Quercus") && tree.dbhCm > 78) row.protected = true;
  if (site.owner === "city" && guard.isUnderWires(site.point) && tree.heightM > 9.5)
    addQuadrants(row, tree.crownRadiusM, random);
  else if (isTrimmedToCurb(site, random)) addCurbSide(row, site.side!, tree.crownRadiusM, random);
  if (site.side !== null && site.owner === "city" && ageYears > 20 && random.chance(0.03)) {
    row.headroom_over_road = round(tree.crownBaseM + random.between(0, 0.5), 1);
  }
  return row;
}

function addPruning(row: Row, care: Site["care"], ageYears: number, random: Random): void {
  if (ageYears < 6 || care === "never" || care === "wild") return;
  if (care === "kept" ? !random.chance(0.85) : !random.chance(0.5)) return;
  const years = care === "kept" ? [2020, 2021, 2022, 2023, 2024, 2025, 2026] : [2012, 2014, 2015, 2017, 2019];
  row.last_pruned = dateIn(random.pick(years), [1, 2, 3], random);
  if (random.chance(0.35)) row.last_dose = random.pick([5, 5, 10, 10, 15, 20]);
}

function conditionOf(random: Random, ageYears: number): string {
  const draw = random.next() + (ageYears > 50 ? -0.06 : 0);
  if (draw < 0.008) return "dead";
  if (draw < 0.07) return "poor";
  return draw < 0.3 ? "fair" : "good";
}

function defectsOf(condition: string, ageYears: number, random: Random): string | null {
  if (ageYears < 3 || condition === "dead") return null;
  const share = condition === "poor" ? 0.7 : condition === "fair" ? 0.18 : 0.03;
  if (!random.chance(share)) return null;
  const old = ["dead-limb", "dead-limb", "broken-limb", "diseased-limb", "decay", "stub", "hanger"] as const;
  const young = ["codominant-stem", "included-bark", "crossing-limb", "sucker", "water-sprout"] as const;
  const first = random.pick(ageYears > 18 ? old : young);
  const second = random.pick(old);
  return random.chance(0.2) && second !== first ? `${first}; ${second}` : first;
}

/** A crown cut back on the wire's side years ago: four radii instead of one spread. */
function addQuadrants(row: Row, radiusM: number, random: Random): void {
  const short = Math.floor(random.next() * 4);
  ["radius_n", "radius_e", "radius_s", "radius_w"].forEach((field, at) => {
    row[field] = round(radiusM * (at === short ? 0.6 : random.between(0.9, 1.1)), 1);
  });
  delete row.crown_spread;
}

/** Whether past work keeps a low crown back at the curb; most of the trees on kept streets, some on others. */
function isTrimmedToCurb({ tree, care, owner, side }: Site, random: Random): boolean {
  const share = care === "kept" ? 0.86 : care === "partly" ? 0.6 : 0;
  return owner === "city" && side !== null && side.length === 1 && tree.crownBaseM < 4.6 && random.chance(share);
}

/** A crown cut back to the curb on its street's side: four radii instead of one spread. */
function addCurbSide(row: Row, side: string, radiusM: number, random: Random): void {
  const toStreet = { N: "radius_s", E: "radius_w", S: "radius_n", W: "radius_e" }[side];
  for (const field of ["radius_n", "radius_e", "radius_s", "radius_w"]) {
    const reachM = radiusM * random.between(0.92, 1.08);
    row[field] = round(field === toStreet ? Math.min(reachM, random.between(0.5, 1)) : reachM, 1);
  }
  delete row.crown_spread;
}

/** What the inventory does not know: single sizes at random, and for some trees everything but place and species. */
function withGaps(row: Row, random: Random): Properties {
  const draws = [random.next(), random.next(), random.next(), random.next()] as const;
  if (draws[3] < 0.025) {
    return { id: row.id!, species: row.species!, street: row.street ?? null, address: row.address ?? null };
  }
  if (draws[0] < 0.1) row.height = null;
  if (draws[1] < 0.13) row.crown_base = null;
  if (draws[2] < 0.13 && "crown_spread" in row) row.crown_spread = null;
  return row;
}

function dateIn(year: number, months: readonly number[], random: Random): string {
  const month = random.pick(months);
  const day = 1 + Math.floor(random.next() * 28);
  return `${year}-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}`;
}

const round = (value: number, digits: number): number => Number(value.toFixed(digits));
