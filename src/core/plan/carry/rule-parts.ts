/** A part of a standard that can differ by itself, with what is another in it, for example `rules roadway-local: minimum 14 ft -> 15 ft`. */
export interface RulePart {
  /** Member of the standard, and the id of an entry where the member is a list of entries with ids. */
  readonly member: string;
  readonly entry: string | null;
  readonly told: string;
}

type Json = unknown;
type Members = Readonly<Record<string, Json>>;
const isMembers = (value: Json): value is Members =>
  typeof value === "object" && value !== null && !Array.isArray(value);
const same = (one: Json, other: Json): boolean => JSON.stringify(one) === JSON.stringify(other);

/** Members of a standard that say what it is, not what it asks for. */
const LABELS: readonly string[] = ["id", "title", "changes", "mergedFrom", "extends", "version"];
/** Values told of one part at most. */
const MOST_TOLD = 4;

/** The parts in which two standards differ, in the order of the later one; what only describes them is left out. */
export function changedRuleParts(before: Json, now: Json): RulePart[] {
  if (!isMembers(before) || !isMembers(now)) return [];
  const names = [...new Set([...Object.keys(now), ...Object.keys(before)])].filter((name) => !LABELS.includes(name));
  return names.flatMap((member): RulePart[] => {
    const [was, is] = [before[member], now[member]];
    if (same(was, is)) return [];
    const [entriesWas, entriesIs] = [entriesById(was), entriesById(is)];
    if (entriesWas === null || entriesIs === null)
      return [{ member, entry: null, told: `${member}: ${difference(was, is)}` }];
    const ids = [...new Set([...entriesIs.keys(), ...entriesWas.keys()])];
    return ids.flatMap((entry) => {
      const [then, next] = [entriesWas.get(entry), entriesIs.get(entry)];
      return same(then, next) ? [] : [{ member, entry, told: `${member} ${entry}: ${difference(then, next)}` }];
    });
  });
}

/** A standard with one part of another. */
export function withRulePart(standard: Json, { member, entry }: RulePart, from: Json): Json {
  if (!isMembers(standard) || !isMembers(from)) return standard;
  if (entry === null) return { ...standard, [member]: from[member] };
  const [own, other] = [entriesById(standard[member])!, entriesById(from[member])!];
  const next = new Map(own);
  const given = other.get(entry);
  if (given === undefined) next.delete(entry);
  else next.set(entry, given);
  return { ...standard, [member]: [...next.values()] };
}

/** Entries of a list in which each has an id; null for all else. */
function entriesById(value: Json): Map<string, Json> | null {
  if (!Array.isArray(value) || value.length === 0) return null;
  const ids = value.map((one) => (isMembers(one) && typeof one.id === "string" ? one.id : null));
  return ids.includes(null) ? null : new Map(value.map((one, at) => [ids[at]!, one]));
}

function difference(was: Json, is: Json): string {
  if (was === undefined) return "new";
  if (is === undefined) return "taken out";
  const found = leaves(was, is, "");
  const more = found.length > MOST_TOLD ? ` and ${found.length - MOST_TOLD} more` : "";
  return found.length === 0 ? "its source" : found.slice(0, MOST_TOLD).join(", ") + more;
}

function leaves(was: Json, is: Json, path: string): string[] {
  if (same(was, is)) return [];
  if (isMembers(was) && isMembers(is)) {
    // Where a value is from is no change of what is asked for.
    const names = [...new Set([...Object.keys(is), ...Object.keys(was)])].filter((name) => name !== "source");
    return names.flatMap((name) => leaves(was[name], is[name], path === "" ? name : `${path}.${name}`));
  }
  const words = (value: Json): string =>
    (typeof value === "string" ? value : (JSON.stringify(value) ?? "none")).slice(0, 60);
  return [`${path === "" ? "" : `${path} `}${words(was)} -> ${words(is)}`];
}
