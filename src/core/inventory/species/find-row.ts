import { commonKey, nameKey, ROWS, ROWS_BY_COMMON_NAME, type TraitRow } from "./species-table.ts";

/** A bundled row that a name was matched to. */
export interface FoundRow {
  readonly row: TraitRow;
  /** Whether the species itself was found, or only its genus. */
  readonly by: "species" | "genus";
  /** Whether one letter had to be forgiven. */
  readonly isRespelled: boolean;
}

/**
 * The bundled species or genus that a text from a species column means, or null.
 *
 * Understands botanical names with cultivars, hybrid marks (`x`, `×`), `sp.`, `spp.`, `var.`; common names (`Red Maple`,
 * `MAPLE, RED`); and both together (`Acer rubrum: Red maple`, `Red maple (Acer rubrum)`). One wrong, missing, extra or swapped letter
 * is forgiven in a genus of five letters or more, and in the epithet once the genus fits.
 */
export function findRow(text: string): FoundRow | null {
  const candidates = partsOf(text.slice(0, 256));
  let genusOnly: FoundRow | null = null;
  for (const candidate of candidates) {
    const found = byBotanicalName(candidate) ?? byCommonName(candidate);
    if (found?.by === "species") return found;
    genusOnly ??= found;
  }
  return genusOnly;
}

/** The text itself and the parts that a colon, a parenthesis or a spaced dash makes of it. */
function partsOf(text: string): string[] {
  const plain = text.replace(/[\t\n\r\u00a0]/g, " ");
  const parts = plain.split(/[:()[\]]| - /).map((part) => part.trim());
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
  const words = withoutCultivar(text)
    .toLowerCase()
    .replaceAll("×", " x ")
    .split(/[ .,;/]/)
    .filter((word) => word !== "" && word !== "x");
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
    if (exact !== undefined) return { row: exact, by: "species", isRespelled };
    const close = respelled(epithet, EPITHETS.get(genus) ?? []);
    if (close !== null) return { row: ROWS.get(`${genus} ${close}`)!, by: "species", isRespelled: true };
  }
  return genusRow === undefined ? null : { row: genusRow, by: "genus", isRespelled };
}

function byCommonName(text: string): FoundRow | null {
  const comma = text.indexOf(",");
  const turned = comma > 0 ? `${text.slice(comma + 1)} ${text.slice(0, comma)}` : text;
  const words = commonKey(withoutCultivar(turned)).split(" ");
  for (let from = 0; from < words.length; from += 1) {
    const row = ROWS_BY_COMMON_NAME.get(words.slice(from).join(" "));
    if (row === undefined) continue;
    const isGenus = !row.name.includes(" ");
    if (from === 0 || isGenus) return { row, by: isGenus ? "genus" : "species", isRespelled: false };
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

/** The one word of a list that differs in a single letter; null when none or several do, or for words under five letters. */
function respelled(word: string, known: readonly string[]): string | null {
  if (word.length < 5 || word.length > 40) return null;
  let found: string | null = null;
  for (const one of known) {
    if (one.length < 5 || !differsByOne(word, one) || one === found) continue;
    if (found !== null) return null;
    found = one;
  }
  return found;
}

/** Whether two words are one replaced, missing, extra or swapped letter apart. */
function differsByOne(left: string, right: string): boolean {
  if (Math.abs(left.length - right.length) > 1) return false;
  let start = 0;
  while (start < left.length && left[start] === right[start]) start += 1;
  const restLeft = left.slice(start);
  const restRight = right.slice(start);
  if (restLeft.length === restRight.length) {
    const isSwapped =
      restLeft[0] === restRight[1] && restLeft[1] === restRight[0] && restLeft.slice(2) === restRight.slice(2);
    return restLeft !== "" && (restLeft.slice(1) === restRight.slice(1) || isSwapped);
  }
  return restLeft.length > restRight.length ? restLeft.slice(1) === restRight : restLeft === restRight.slice(1);
}
