import { isMembers, mergeMembers } from "./merge-members.ts";
import { nameFault } from "./name-faults.ts";
import { overrideSchema } from "./override-schema.ts";
import { faultsOf, parseStandard } from "./parse-standard.ts";
import type { Source, StandardChange } from "./standard.ts";

type Json = Readonly<Record<string, unknown>>;

/** A whole standard as JSON after a merge, and what this override changed in it. */
export interface MergedStandard {
  readonly merged: Json;
  readonly changes: readonly StandardChange[];
}

/** Parts of a standard that an override changes member by member. */
const PARTS = [
  "widths",
  "ways",
  "walkwayWidth",
  "assumedBuildingHeight",
  "storeyHeight",
  "canopyUnderside",
  "sight",
  "views",
  "conductor",
  "pruning",
  "nesting",
  "deadlines",
  "crew",
  "risk",
  "notices",
  "acceptance",
] as const;
/** Lists whose entries an override meets by their ids, and where it adds to them. */
const LISTS = [
  { name: "rules", what: "rule", adds: "addRules" },
  { name: "seasons", what: "season", adds: "addSeasons" },
  { name: "droopAllowances", what: "droop allowance", adds: "addDroopAllowances" },
] as const;

/**
 * A whole standard with an override's values in place of its own, or the faults as sentences. Members merge, lists are replaced whole,
 * rules, seasons and droop allowances are met by their ids and stay in their order; what is added stands last.
 *
 * A changed value takes its source with it: the one beside it in the override, else the override's own, else a note that none was given.
 * `base` must be a standard that `parseStandard` takes; neither value is changed.
 */
export function mergeStandard(base: unknown, override: unknown): MergedStandard | { faults: string[] } {
  const checked = overrideSchema.safeParse(override);
  if (!checked.success) return { faults: faultsOf(checked.error, overrideSchema) };
  const whole = parseStandard(base);
  if ("faults" in whole) return whole;
  const faults = LISTS.flatMap(({ name, what }) => unknownIds(base as Json, override as Json, name, what));
  if (faults.length > 0) return { faults };

  const merge = merged(base as Json, override as Json, checked.data.title);
  const parsed = parseStandard(merge.merged);
  if ("faults" in parsed) return { faults: parsed.faults.map((fault) => withIds(fault, merge.merged)) };
  const before = whole.standard.changes.length;
  return { merged: merge.merged, changes: parsed.standard.changes.slice(before) };
}

/** The merge of two checked values; its changes are kept in it as they are written. */
function merged(base: Json, over: Json, title: string): { readonly merged: Json } {
  const changes: StandardChange[] = [];
  const own = (over.source as Source | undefined) ?? noSource(title);
  const given = membersOf(over.provenance);
  const provenance = new Map(Object.entries(membersOf(base.provenance)));
  const note = (path: string, from: unknown, to: unknown, source: Source): void => {
    changes.push({ path, from, to, by: title, source });
  };
  /** Notes a change of a value that is not a rule's own, and who says so. */
  const noteValue = (path: string, from: unknown, to: unknown, beside: Source | undefined): void => {
    const source = (Object.hasOwn(given, path) ? (given[path] as Source) : beside) ?? own;
    provenance.set(path, source);
    note(path, from, to, source);
  };

  const result = new Map(Object.entries(base));
  for (const { name, adds } of LISTS) {
    const overs = membersOf(over[name]);
    const entries = listOf(base[name]).map((entry) => {
      const id = String(entry.id);
      return Object.hasOwn(overs, id) ? mergedEntry(entry, membersOf(overs[id]), `${name}.${id}`) : entry;
    });
    for (const entry of listOf(over[adds])) {
      entries.push(entry);
      note(`${name}.${String(entry.id)}`, null, entry, entry.source as Source);
    }
    result.set(name, entries);
  }
  for (const part of PARTS) {
    if (over[part] === undefined) continue;
    result.set(part, mergedPart(base[part], over[part], [part], undefined));
  }
  for (const [path, source] of Object.entries(given)) provenance.set(path, source);
  result.set("provenance", Object.fromEntries(provenance));
  result.set("id", over.id ?? `${String(base.id)}-changed`);
  result.set("title", title);
  result.set("mergedFrom", [...((base.mergedFrom as string[] | undefined) ?? []), base.id]);
  result.set("changes", [...((base.changes as StandardChange[] | undefined) ?? []), ...changes]);
  return { merged: Object.fromEntries(result) };

  /**
   * A rule, season or droop allowance with changed members. A rule's source speaks for its minimum: it goes when the minimum does or is cited anew, and else
   * what changed has its own in `provenance`. The source of a season or a droop allowance speaks for all of it.
   */
  function mergedEntry(entry: Json, change: Json, at: string): Json {
    const { source: beside, ...members } = change as { readonly source?: Source } & Json;
    const found: { path: string; from: unknown; to: unknown }[] = [];
    const next = mergeMembers(entry, members, [], (path, from, to) => {
      found.push({ path: `${at}.${path.join(".")}`, from, to });
    }) as Json;
    const isCited = beside !== undefined && (Object.hasOwn(members, "minimum") || Object.keys(members).length === 0);
    const speaksForAll =
      isCited || "avoidFrom" in entry || "load" in entry || found.some(({ path }) => path === `${at}.minimum`);
    for (const { path, from, to } of found) {
      if (speaksForAll && !Object.hasOwn(given, path)) {
        provenance.delete(path);
        note(path, from, to, beside ?? own);
      } else noteValue(path, from, to, beside);
    }
    if (!speaksForAll || (beside === undefined && found.length === 0)) return next;
    return mergeMembers(next, { source: beside ?? own }, [], (_path, from, to) => {
      note(`${at}.source`, from, to, beside ?? own);
    }) as Json;
  }

  /** A part with changed members; a `source` in it speaks for what stands beside and below it, not for what stays. */
  function mergedPart(was: unknown, is: unknown, path: readonly string[], above: Source | undefined): unknown {
    if (!isMembers(was) || !isMembers(is)) {
      return mergeMembers(was, is, path, (_path, from, to) => noteValue(path.join("."), from, to, above));
    }
    const { source, ...changed } = is as { readonly source?: Source } & Json;
    const members = new Map(Object.entries(was));
    for (const [name, value] of Object.entries(changed)) {
      members.set(name, mergedPart(members.get(name), value, [...path, name], source ?? above));
    }
    return Object.fromEntries(members);
  }
}

/** Stands where nobody said who set a value. */
const noSource = (title: string): Source => ({
  title: `Set by "${title}", which names no source`,
  edition: null,
  section: null,
  known: "our-policy",
});

function unknownIds(base: Json, over: Json, list: string, what: string): string[] {
  const known = listOf(base[list]).map(({ id }) => String(id));
  return Object.keys(membersOf(over[list]))
    .filter((id) => !known.includes(id))
    .map((id) => nameFault(`${list}.${id}`, what, id, known));
}

/** A fault with the id of the rule, season or droop allowance in place of its number. */
function withIds(fault: string, standard: Json): string {
  const colon = fault.indexOf(":");
  const [list = "", at = "", ...rest] = fault.slice(0, colon).split(".");
  const entry = listOf(standard[list])[Number(at)];
  return entry === undefined ? fault : `${[list, String(entry.id), ...rest].join(".")}${fault.slice(colon)}`;
}

const membersOf = (value: unknown): Json => (isMembers(value) ? value : {});
const listOf = (value: unknown): Json[] => (Array.isArray(value) ? (value as Json[]) : []);
