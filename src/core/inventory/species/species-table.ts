import type { Habit } from "../../model/terms.ts";
import { FITTED_SPECIES } from "../allometry/urban-equations.ts";
import table from "./traits.json" with { type: "json" };

export type TreeKind =
  | "broadleaf-deciduous"
  | "broadleaf-evergreen"
  | "conifer-evergreen"
  | "conifer-deciduous"
  | "palm";
export type GrowthClass = "slow" | "medium" | "fast";

/** A species or genus as bundled. */
export interface TraitRow {
  /** Botanical name; one word for a genus. */
  readonly name: string;
  readonly habit: Habit;
  readonly kind: TreeKind;
  readonly growth: GrowthClass;
  readonly matureHeightM: number;
  /** Name in the allometry tables, null where they do not have it. */
  readonly fittedName: string | null;
}

/** A botanical name for comparing: lower case, single blanks, hybrid mark dropped. */
export const nameKey = (name: string): string =>
  name
    .toLowerCase()
    .split(" ")
    .filter((word) => word !== "" && word !== "x")
    .join(" ");

/** A common name for comparing: lower case, hyphens and punctuation as single blanks. */
export const commonKey = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[^\p{L}\p{N}' ]/gu, " ")
    .split(" ")
    .filter((word) => word !== "")
    .join(" ");

/** The accepted key of a key; itself when it is no synonym. */
const SYNONYMS: ReadonlyMap<string, string> = new Map(
  Object.entries(table.synonyms).map(([from, to]) => [nameKey(from), nameKey(to)]),
);
const acceptedKey = (key: string): string => SYNONYMS.get(key) ?? key;

/** Heights of the database's size classes when mature, S under 8 m, M 8 to 15 m, L above; figures inside them are our policy. */
const CLASS_HEIGHT_M: ReadonlyMap<string, number> = new Map([
  ["S", 7],
  ["M", 12],
  ["L", 20],
]);
const TYPE_KINDS: ReadonlyMap<string, TreeKind> = new Map([
  ["BD", "broadleaf-deciduous"],
  ["BE", "broadleaf-evergreen"],
  ["CE", "conifer-evergreen"],
  ["PE", "palm"],
]);

type JsonRow = [string, Habit, TreeKind, GrowthClass, number, string[]];

/**
 * Bundled rows by {@link nameKey}, synonyms included. Species of the allometry tables that have no row of their own take their genus's, and a
 * genus without a row takes that of its first species.
 */
export const ROWS: ReadonlyMap<string, TraitRow> = bundledRows();
/** Bundled rows by common name in plain words. */
export const ROWS_BY_COMMON_NAME: ReadonlyMap<string, TraitRow> = commonNames();
/** Genera whose cuts bleed, and genera that bloom in spring; where each comes from stands in the file itself. */
export const BLEEDING_GENERA: ReadonlySet<string> = new Set(table.bleedingGenera);
export const SPRING_BLOOMING_GENERA: ReadonlySet<string> = new Set(table.springBloomingGenera);
export const NOT_SPRING_BLOOMING: ReadonlySet<string> = new Set(table.notSpringBlooming);

function bundledRows(): Map<string, TraitRow> {
  const fitted = new Map(FITTED_SPECIES.map((one) => [acceptedKey(nameKey(one.name)), one]));
  const rows = new Map<string, TraitRow>();
  for (const [name, habit, kind, growth, matureHeightM] of table.traits as JsonRow[]) {
    const fittedName = fitted.get(nameKey(name))?.name ?? null;
    rows.set(nameKey(name), { name, habit, kind, growth, matureHeightM, fittedName });
  }
  for (const [key, { name, genus, type }] of fitted) {
    const kind = TYPE_KINDS.get(type.slice(0, 2));
    if (rows.has(key) || name === genus || kind === undefined) continue;
    const ofGenus = rows.get(nameKey(genus));
    const habit = ofGenus?.habit ?? (kind === "conifer-evergreen" ? "cone" : kind === "palm" ? "dome" : "ellipsoid");
    const matureHeightM = CLASS_HEIGHT_M.get(type[2] ?? "M") ?? 12;
    rows.set(key, { name, habit, kind, growth: ofGenus?.growth ?? "medium", matureHeightM, fittedName: name });
  }
  for (const row of [...rows.values()]) {
    const [genus, epithet] = row.name.split(" ");
    if (epithet === undefined || rows.has(nameKey(genus!))) continue;
    rows.set(nameKey(genus!), { ...row, name: genus!, fittedName: null });
  }
  for (const [from, to] of SYNONYMS) {
    const row = rows.get(to);
    if (row !== undefined) rows.set(from, row);
  }
  return rows;
}

function commonNames(): Map<string, TraitRow> {
  const rows = new Map<string, TraitRow>();
  const add = (common: string, row: TraitRow | undefined): void => {
    const key = commonKey(common);
    if (row !== undefined && !rows.has(key)) rows.set(key, row);
  };
  for (const [name, , , , , common] of table.traits as JsonRow[]) {
    for (const one of common) add(one, ROWS.get(nameKey(name)));
  }
  for (const { name, commonNames: common } of FITTED_SPECIES) {
    for (const one of common) add(one, ROWS.get(acceptedKey(nameKey(name))));
  }
  return rows;
}
