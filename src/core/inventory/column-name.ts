import type { ColumnUnit } from "../model/column-map.ts";

const UNITS_IN_NAMES: ReadonlyMap<string, ColumnUnit> = new Map(
  (
    [
      ["in", "in inch inches zoll pouce pouces pulgada pulgadas"],
      ["ft", "ft foot feet fuss pied pieds pie pies"],
      ["m", "m meter meters metre metres metro metros metri mtr mts"],
      ["cm", "cm cms centimeter centimeters centimetre centimetres centimetros"],
      ["mm", "mm millimeter millimeters millimetre millimetres"],
      ["mph", "mph"],
      ["km/h", "kmh kph"],
      ["kV", "kv"],
      ["V", "v"],
      ["percent", "pct percent prozent"],
    ] as const
  ).flatMap(([unit, words]) => words.split(" ").map((word) => [word, unit] as const)),
);

/** Letters that Unicode does not take apart into a plain letter and a mark. */
const PLAIN_LETTERS: ReadonlyMap<string, string> = new Map([
  ["ß", "ss"],
  ["ø", "o"],
  ["æ", "ae"],
  ["œ", "oe"],
  ["ł", "l"],
  ["đ", "d"],
  ["ð", "d"],
  ["þ", "th"],
  ["ı", "i"],
]);
const MAX_NAME = 256;
/** Names in a Shapefile's table are cut to ten bytes (dBASE III). */
export const CUT_LENGTH = 10;

/** A column's name taken apart for comparing: small letters without accents, blanks and marks. */
export interface ColumnName {
  readonly name: string;
  /** All of it. */
  readonly whole: string;
  /** Without the unit at its end; the same as `whole` where there is none, or nothing else. */
  readonly stem: string;
  readonly unit: ColumnUnit | null;
  /** Whether it may be the beginning of a longer name that a Shapefile cut. */
  readonly isCut: boolean;
  /** Its first eight letters, as numbered twins of a cut name keep them. */
  readonly start: string;
  /** The eight letters kept of a name that was cut and then numbered (`CROWNWID_1`); null for any other. */
  readonly numberedStart: string | null;
}

/** Takes a column's name apart: `Trunk Diam. (in)` is `trunkdiamin`, stem `trunkdiam`, unit in. Linear; beyond 256 letters nothing is read. */
export function columnName(name: string): ColumnName {
  const words = wordsOf(name.slice(0, MAX_NAME));
  const unit = UNITS_IN_NAMES.get(words.at(-1) ?? "") ?? null;
  const start = wordsOf(name.slice(0, 8)).join("");
  return {
    name,
    whole: words.join(""),
    stem: (unit === null || words.length === 1 ? words : words.slice(0, -1)).join(""),
    unit,
    isCut: name.length === CUT_LENGTH,
    start,
    numberedStart: /^.{8}_\d$/.test(name) ? start : null,
  };
}

/** The unit that is written onto the end of a name without a mark between, for example `dbhin` for the stem `dbh`; null when it is none. */
export const gluedUnit = (whole: string, stem: string): ColumnUnit | null =>
  whole.startsWith(stem) ? (UNITS_IN_NAMES.get(whole.slice(stem.length)) ?? null) : null;

function wordsOf(name: string): string[] {
  const plain = name
    .replace(/(\p{Ll}{2})(\p{Lu})/gu, "$1 $2")
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .normalize("NFC")
    .toLowerCase();
  let folded = "";
  for (const letter of plain) folded += PLAIN_LETTERS.get(letter) ?? letter;
  return folded.split(/[^\p{L}\p{N}]/u).filter((word) => word !== "");
}
