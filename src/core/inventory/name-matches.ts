import type { ColumnUnit } from "../model/column-map.ts";
import type { Layer } from "../model/terms.ts";
import { COLUMN_ALIASES } from "./column-aliases.ts";
import { isLengthField } from "./column-fit.ts";
import { type ColumnName, CUT_LENGTH, gluedUnit } from "./column-name.ts";
import { FOREIGN_COLUMN_NAMES } from "./foreign-column-names.ts";

/** How a column's name says a field. */
export interface NameMatch {
  readonly column: ColumnName;
  /** Unit that the name names. */
  readonly unit: ColumnUnit | null;
  /** 0 to 1, our policy. */
  readonly score: number;
  readonly how: string;
  /** The name says that its values are classes: bare numbers there are their codes, not lengths. */
  readonly isOfClasses: boolean;
}

/** How well a name is known, our policy, surest first. */
const OWN_NAME = { score: 1, how: "the field's own name" };
const KNOWN_NAME = { score: 0.9, how: "a usual name of it" };
const FOREIGN_NAME = { score: 0.9, how: "a usual name of it in another language" };
const TREE_NAME = { score: 0.85, how: "a usual name of it behind the word tree" };
const CLASS_NAME = { score: 0.8, how: "a usual name of it before the word class or range" };
const CUT_NAME = { score: 0.7, how: "the beginning of a usual name, as a Shapefile cuts it after ten letters" };
const NUMBERED_NAME = { score: 0.6, how: "the beginning of a usual name, cut and numbered by a Shapefile" };
/** Cut names are not compared with fewer letters than this: too many names begin alike. */
const LEAST_CUT_LETTERS = 6;
const CLASS_WORDS = ["class", "classes", "range", "category"];

interface KnownName {
  readonly text: string;
  readonly kind: { readonly score: number; readonly how: string };
}

/** All columns whose names say a field, surest first; equals by the order of the list of names, then of the columns. */
export function nameMatches(layer: Layer, field: string, columns: readonly ColumnName[]): NameMatch[] {
  const known = knownNames(layer, field);
  const starts = new Set(columns.flatMap(({ numberedStart }) => (numberedStart === null ? [] : [numberedStart])));
  const best = new Map<ColumnName, NameMatch>();
  for (const { text, kind } of known) {
    for (const column of columns) {
      const match = matchOf(column, text, field, starts);
      if (match === null) continue;
      const { score, how } = match.kind ?? kind;
      if (score > (best.get(column)?.score ?? 0)) {
        // Set anew, so that equals stand in the order of the names that matched best.
        best.delete(column);
        best.set(column, { column, unit: match.unit, score, how, isOfClasses: match.kind === CLASS_NAME });
      }
    }
  }
  return [...best.values()].sort((left, right) => right.score - left.score);
}

function knownNames(layer: Layer, field: string): KnownName[] {
  const aliases = COLUMN_ALIASES[layer] as Readonly<Record<string, string>>;
  const foreign = layer === "trees" ? (FOREIGN_COLUMN_NAMES as Readonly<Record<string, string>>) : {};
  const list = (names: string | undefined, kind: KnownName["kind"]): KnownName[] =>
    (names ?? "")
      .split(" ")
      .filter((text) => text !== "")
      .map((text) => ({ text, kind }));
  return [
    { text: field.replaceAll("_", ""), kind: OWN_NAME },
    ...list(Object.hasOwn(aliases, field) ? aliases[field] : "", KNOWN_NAME),
    ...list(Object.hasOwn(foreign, field) ? foreign[field] : "", FOREIGN_NAME),
  ];
}

function matchOf(
  column: ColumnName,
  known: string,
  field: string,
  numberedStarts: ReadonlySet<string>,
): { unit: ColumnUnit | null; kind: KnownName["kind"] | null } | null {
  const { whole, stem, unit, isCut, start, numberedStart } = column;
  if (numberedStart !== null) {
    const isStart = known.length > CUT_LENGTH && known.startsWith(numberedStart);
    return isStart ? { unit: null, kind: NUMBERED_NAME } : null;
  }
  // Beside a numbered twin, a name of ten letters is itself cut, whatever it looks like.
  const hasTwin = isCut && numberedStarts.has(start);
  if (!hasTwin && (whole === known || stem === known)) return { unit, kind: null };
  if (!hasTwin && (whole === `tree${known}` || stem === `tree${known}`)) return { unit, kind: TREE_NAME };
  const glued = isLengthField(field) ? gluedUnit(whole, known) : null;
  if (!hasTwin && glued !== null) return { unit: glued, kind: null };
  if (isLengthField(field) && CLASS_WORDS.some((word) => stem === known + word || stem === `tree${known}${word}`))
    return { unit, kind: CLASS_NAME };
  const isStart = whole.length >= LEAST_CUT_LETTERS && known.length > whole.length && known.startsWith(whole);
  return isCut && isStart ? { unit: null, kind: CUT_NAME } : null;
}
