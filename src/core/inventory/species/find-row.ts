import { rowOfCode } from "./species-codes.ts";
import { commonKey, nameKey, ROWS, ROWS_BY_COMMON_NAME, type TraitRow } from "./species-table.ts";
import { isNear, respelled } from "./spelling.ts";

/** A bundled row that a name was matched to. */
export interface FoundRow {
  readonly row: TraitRow;
  /** Whether the species itself was found, or only its genus. */
  readonly by: "species" | "genus";
  /** Whether letters had to be forgiven. */
  readonly isRespelled: boolean;
  /** Whether the name is a code such as `ACRU`. */
  readonly isCode: boolean;
}

/**
 * The bundled species or genus that a text from a species column means, or null.
 *
 * Understands botanical names with cultivars, hybrid marks (`x`, `×`), `sp.`, `spp.`, `var.`; common names (`Red Maple`,
 * `MAPLE, RED`); both together (`Acer rubrum: Red maple`, `Red maple (Acer rubrum)`); and codes of the first two or three letters of genus and
 * epithet ({@link rowOfCode}). Misspellings are forgiven as `spelling.ts` says.
 */
export function findRow(text: string): FoundRow | null {
  const candidates = partsOf(text.slice(0, 256));
  let genusOnly: FoundRow | null = null;
  for (const candidate of candidates) {
    const found = byBotanicalName(candidate) ?? byCommonName(candidate) ?? byMisspelledName(candidate);
    if (found?.by === "species") return found;
    genusOnly ??= found;
  }
  const coded = genusOnly === null ? rowOfCode(text) : null;
  return coded === null ? genusOnly : found(coded, false, true);
}

/** The text itself and the parts that a colon, a slash, a parenthesis or a spaced dash makes of it. */
function partsOf(text: string): string[] {
  const plain = text.replace(/[\t\n\r\u00a0]/g, " ");
  const parts = plain.split(/[:;/()[\]]| - /).map((part) => part.trim());
  return [plain, ...(parts.length > 1 ? parts : [])].filter((part) => part !== "");
}

const GENUS_ONLY: ReadonlySet<string> = new Set([
  "sp",
  "spp",
  "ssp",
  "species",
  "hybrid",
  "hybrids",
  "cv",
  "cvs",
  "cultivar",
]);
const RANKS: ReadonlySet<string> = new Set(["var", "subsp", "ssp", "f", "forma", "cv"]);

function byBotanicalName(text: string): FoundRow | null {
  const words = botanicalWords(text);
  const [genusWord, epithet] = words;
  if (genusWord === undefined) return null;
  const genus = ROWS.has(genusWord) || hasSpeciesOf(genusWord) ? genusWord : respelled(genusWord, GENERA);
  if (genus === null) return null;
  const isRespelled = genus !== genusWord;
  const genusRow = ROWS.get(genus);
  if (epithet !== undefined && !GENUS_ONLY.has(epithet)) {
    const lower = words.slice(2).find((word) => !RANKS.has(word));
    const exact =
      (lower === undefined ? undefined : ROWS.get(`${genus} ${epithet} ${lower}`)) ?? ROWS.get(`${genus} ${epithet}`);
    if (exact !== undefined) return found(exact, isRespelled);
    const close = respelled(epithet, EPITHETS.get(genus) ?? []);
    if (close !== null) return found(ROWS.get(`${genus} ${close}`)!, true);
  }
  return genusRow === undefined ? null : found(genusRow, isRespelled);
}

/** A row as found; a row of a genus, also one that a synonym led to, is a genus. */
const found = (row: TraitRow, isRespelled: boolean, isCode = false): FoundRow => ({
  row,
  by: row.name.includes(" ") ? "species" : "genus",
  isRespelled,
  isCode,
});

const botanicalWords = (text: string): string[] =>
  withoutCultivar(text)
    .toLowerCase()
    .replaceAll("×", " x ")
    .split(/[ .,;/?*]/)
    .filter((word) => word !== "" && word !== "x");

/**
 * The one species whose genus and epithet are both near to the first two words (`Thus plicata`, `Tsonga heterophylla`); null when none or
 * several are. The epithet may be a letter off, a short genus two: together they leave no doubt.
 */
function byMisspelledName(text: string): FoundRow | null {
  const [genusWord, epithet] = botanicalWords(text);
  if (genusWord === undefined || epithet === undefined || epithet.length < 5) return null;
  const rows = new Set<TraitRow>();
  for (const [genus, epithets] of EPITHETS) {
    if (!isNear(genusWord, genus, 2)) continue;
    for (const one of epithets) {
      const row = one === epithet || isNear(epithet, one, 1) ? ROWS.get(`${genus} ${one}`) : undefined;
      if (row !== undefined) rows.add(row);
    }
  }
  return rows.size === 1 ? found([...rows][0]!, true) : null;
}

/** Words that name trees of several genera: behind other words they say nothing, where the whole name is not known. */
const VAGUE_WORDS: ReadonlySet<string> = new Set(["cedar", "cypress"]);
/** Pairs of words whose second one names another genus than it does alone; from memory. */
const MISLEADING_PAIRS: ReadonlySet<string> = new Set([
  "umbrella pine",
  "norfolk pine",
  "island pine",
  "screw pine",
  "bunya pine",
  "cornelian cherry",
  "brush cherry",
  "surinam cherry",
  "custard apple",
  "rose apple",
  "star apple",
  "silky oak",
  "she oak",
  "poison oak",
  "natal plum",
  "java plum",
  "mountain ash",
  "prickly ash",
  "autumn olive",
  "russian olive",
]);

function byCommonName(text: string): FoundRow | null {
  const comma = text.indexOf(",");
  const turned = comma > 0 ? `${text.slice(comma + 1)} ${text.slice(0, comma)}` : text;
  const words = commonKey(withoutCultivar(turned)).split(" ");
  for (let from = 0; from < words.length; from += 1) {
    const row = ROWS_BY_COMMON_NAME.get(words.slice(from).join(" "));
    if (row === undefined) continue;
    const isGenus = !row.name.includes(" ");
    const isLastWord = from > 0 && from === words.length - 1;
    const isVague = VAGUE_WORDS.has(words[from]!) || MISLEADING_PAIRS.has(words.slice(from - 1).join(" "));
    if (isGenus && isLastWord && isVague) return null;
    // Two words may end the longer name of another species (Texas red oak); three hardly do (golden western red cedar).
    if (from === 0 || isGenus || words.length - from > 2) return found(row, false);
  }
  return null;
}

/** The text up to its cultivar: a quotation mark at the start of a word and all after its closing one are not part of the name. */
function withoutCultivar(text: string): string {
  const plain = text.replace(/[‘’`]/g, "'").replace(/[“”]/g, '"');
  const opening = [" '", ' "'].map((mark) => plain.indexOf(mark)).filter((at) => at > 0);
  return opening.length === 0 ? plain : plain.slice(0, Math.min(...opening));
}

const EPITHETS: ReadonlyMap<string, readonly string[]> = epithetsByGenus();
const GENERA: readonly string[] = [...EPITHETS.keys()];
const hasSpeciesOf = (genus: string): boolean => (EPITHETS.get(genus)?.length ?? 0) > 0;

function epithetsByGenus(): Map<string, string[]> {
  const epithets = new Map<string, string[]>();
  for (const key of ROWS.keys()) {
    const [genus, epithet] = nameKey(key).split(" ");
    const list = epithets.get(genus!) ?? [];
    if (epithet !== undefined) list.push(epithet);
    epithets.set(genus!, list);
  }
  return epithets;
}
