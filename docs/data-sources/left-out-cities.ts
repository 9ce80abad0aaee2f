/**
 * What the allometry predicts for every raw tree of the Urban Tree Database from equations of other cities: what an inventory of a city that
 * was never measured would get. For the genus level the tree's own species is left out too, for the type level its genus, as these
 * levels stand in where they are missing.
 */
import { readFileSync } from "node:fs";
import type { AllometryLevel } from "../../src/core/inventory/allometry/elsewhere.ts";
import { type Equation, type Prediction, predict } from "../../src/core/inventory/allometry/equation.ts";
import { pool } from "../../src/core/inventory/allometry/pool.ts";
import { FITTED_SPECIES, type FittedSpecies } from "../../src/core/inventory/allometry/urban-equations.ts";

export const LEVELS: readonly AllometryLevel[] = ["species", "genus", "type"];

/** A raw tree beside its prediction without the spread between cities. */
export interface LeftOutTree {
  readonly level: AllometryLevel;
  /** 0 tree height, 1 crown depth, 2 crown width. */
  readonly component: number;
  readonly city: string;
  readonly species: string;
  readonly dbhCm: number;
  readonly measuredM: number;
  readonly prediction: Prediction;
}

interface RawTree {
  readonly city: string;
  readonly species: string;
  readonly dbhCm: number;
  readonly sizesM: readonly number[];
}

const RAW_FILE = new URL("urban-tree-database/TS3_tree_sizes.csv", import.meta.url);

/** A name without cultivar and ranks, as in the table of equations. */
const plainName = (name: string): string =>
  name
    .replace(/'[^']*'/, "")
    .replace(/ (cvs|sp|spp)\./, "")
    .replace(/ (subsp|var)\. .*/, "")
    .trim();

function rawTrees(): RawTree[] {
  const lines = readFileSync(RAW_FILE, "utf8").trim().split("\n").slice(1);
  return lines.map((line) => {
    const [city, , species, , , dbh, height, , depth, width] = line.split(",");
    return {
      city: city!,
      species: plainName(species!),
      dbhCm: Number(dbh),
      sizesM: [Number(height), Number(depth), Number(width)],
    };
  });
}

/** Every raw tree that can be predicted without its own city, at every level and for every size. */
export function leftOutTrees(): LeftOutTree[] {
  const bySpecies = new Map(FITTED_SPECIES.map((one) => [one.name, one]));
  const groups = new Map<string, Equation[]>();
  const found: LeftOutTree[] = [];
  for (const { city, species, dbhCm, sizesM } of rawTrees()) {
    const own = bySpecies.get(species);
    if (own === undefined || own.type.startsWith("P") || !(dbhCm > 0)) continue;
    for (const level of LEVELS) {
      for (const [component, measuredM] of sizesM.entries()) {
        if (!(measuredM > 0)) continue;
        const key = `${level}|${component}|${city}|${species}`;
        const equations = groups.get(key) ?? equationsFor(level, own, city, component);
        groups.set(key, equations);
        if (equations.length === 0) continue;
        const prediction = pool(equations.map((equation) => predict(equation, dbhCm)));
        found.push({ level, component, city, species, dbhCm, measuredM, prediction });
      }
    }
  }
  return found;
}

/** The equations of a level without a city: of each species the one fitted to most trees. */
function equationsFor(level: AllometryLevel, own: FittedSpecies, city: string, component: number): Equation[] {
  return FITTED_SPECIES.filter((one) => isLike(level, own, one)).flatMap((one) => {
    const elsewhere = one.fitted[component]!.filter(({ region }) => region !== city).map(({ equation }) => equation);
    return elsewhere.length === 0 ? [] : [elsewhere.reduce((best, each) => (each.trees > best.trees ? each : best))];
  });
}

function isLike(level: AllometryLevel, own: FittedSpecies, one: FittedSpecies): boolean {
  if (level === "species") return one === own;
  if (level === "genus") return one.genus === own.genus && one !== own;
  return one.type === own.type && one.genus !== own.genus;
}
