import { ROWS, type TraitRow } from "./species-table.ts";

/**
 * The species or genus that a code means: the first two letters of genus and epithet (`ACRU`, as botanical lists of North America have
 * it) or the first three (`QUERUB`), in capitals or not, with a number behind that is not read. Null for any other text.
 *
 * A number tells species with the same letters apart, differently in every list; so of several species with the letters the genus is
 * taken, and nothing where they are of several genera.
 */
export function rowOfCode(text: string): TraitRow | null {
  const letters = /^([a-z]{4}|[a-z]{6})\d{0,2}(_[a-z0-9])?$/i.exec(text.trim())?.[1]?.toLowerCase();
  if (letters === undefined) return null;
  const names = CODES.get(letters);
  if (names === undefined) return null;
  if (names.size === 1) return ROWS.get([...names][0]!) ?? null;
  const genera = new Set([...names].map((name) => name.split(" ")[0]!));
  return genera.size === 1 ? (ROWS.get([...genera][0]!) ?? null) : null;
}

const CODES: ReadonlyMap<string, ReadonlySet<string>> = codes();

function codes(): Map<string, Set<string>> {
  const found = new Map<string, Set<string>>();
  for (const key of ROWS.keys()) {
    const [genus, epithet] = key.split(" ");
    if (epithet === undefined) continue;
    // A synonym and the name it stands for may have codes of their own.
    const name = ROWS.get(key)!
      .name.toLowerCase()
      .split(" ")
      .filter((word) => word !== "x")
      .join(" ");
    for (const code of [genus!.slice(0, 2) + epithet.slice(0, 2), genus!.slice(0, 3) + epithet.slice(0, 3)]) {
      const names = found.get(code) ?? new Set<string>();
      names.add(name);
      found.set(code, names);
    }
  }
  return found;
}
