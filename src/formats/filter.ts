import { ownMember } from "./json/own-member.ts";

const OPERATORS = ["!=", "=", "one of", "contains", "lacks", "empty", "filled"] as const;
type Operator = (typeof OPERATORS)[number];

export interface FilterClause {
  readonly field: string;
  readonly operator: Operator;
  /** Lower case; empty for `empty` and `filled`, and the whole list for `one of`. */
  readonly value: string;
  /** Of `one of`, each value in lower case; empty for the others. */
  readonly values: readonly string[];
}

/** Which features of a file are wanted: all clauses must hold. */
export interface Filter {
  /** As it was written. */
  readonly text: string;
  readonly clauses: readonly FilterClause[];
}

/** What a layer argument of the command line names. */
export interface LayerArgument {
  readonly path: string;
  readonly filter: Filter | null;
}

/**
 * A filter from text: `FIELD = value`, `FIELD != value`, `FIELD contains value`, `FIELD lacks value`, `FIELD empty`, `FIELD filled`
 * and `FIELD one of value, value`, joined by ` and `. Field names are exact, words and values are compared without regard to case. A name or value that
 * itself holds ` and ` or an operator, and one of a list that holds a comma, stands in double quotes, with a quote inside doubled.
 *
 * Throws RangeError, with the clause and the grammar, for anything else.
 */
export function parseFilter(text: string): Filter {
  const clauses = splitAtAnd(text).map(parseClause);
  return { text: text.trim(), clauses };
}

/** A layer argument `PATH` or `PATH where FILTER`. Throws RangeError for an empty path or a filter that cannot be read. */
export function parseLayerArgument(argument: string): LayerArgument {
  const where = argument.toLowerCase().indexOf(" where ");
  const path = (where === -1 ? argument : argument.slice(0, where)).trim();
  if (path === "") throw new RangeError(`Expected PATH or PATH where FILTER, got "${argument.slice(0, 80)}".`);
  return { path, filter: where === -1 ? null : parseFilter(argument.slice(where + " where ".length)) };
}

/** Whether properties satisfy a filter. A missing or null member and blank text are empty; `!=` and `lacks` hold for them. */
export function matches(filter: Filter, properties: Readonly<Record<string, unknown>>): boolean {
  return filter.clauses.every((clause) => clauseHolds(clause, ownMember(properties, clause.field)));
}

function clauseHolds({ operator, value, values }: FilterClause, property: unknown): boolean {
  const text = propertyText(property);
  switch (operator) {
    case "empty":
      return text === "";
    case "filled":
      return text !== "";
    case "contains":
      return text.includes(value);
    case "lacks":
      return !text.includes(value);
    case "=":
      return isSame(property, text, value);
    case "!=":
      return !isSame(property, text, value);
    case "one of":
      return values.some((one) => isSame(property, text, one));
  }
}

const isSame = (property: unknown, text: string, value: string): boolean =>
  text === value || (typeof property === "number" && property === Number(value));

function propertyText(property: unknown): string {
  if (property === undefined || property === null) return "";
  return (typeof property === "object" ? JSON.stringify(property) : String(property)).trim().toLowerCase();
}

function parseClause(text: string): FilterClause {
  const clause = text.trim();
  for (let at = 0; at < clause.length; at += 1) {
    if (clause[at] === '"') {
      at = closingQuote(clause, at);
      continue;
    }
    const operator = OPERATORS.find((word) => isOperatorAt(clause, at, word));
    if (operator === undefined) continue;
    const field = unquote(clause.slice(0, at));
    const given = clause.slice(at + operator.length);
    const values = operator === "one of" ? splitAtCommas(given).map(plainValue) : [];
    const value = values.length > 0 ? values.join(", ") : plainValue(given);
    const takesValue = operator !== "empty" && operator !== "filled";
    if (field === "" || takesValue !== (value !== "") || values.includes("")) break;
    return { field, operator, value, values };
  }
  throw new RangeError(
    `Cannot read the filter "${clause.slice(0, 80)}". Write FIELD = value, FIELD != value, FIELD one of value, value, FIELD contains value, ` +
      "FIELD lacks value, FIELD empty or FIELD filled, joined by and.",
  );
}

/** Signs count anywhere, words only between blanks and behind a field. */
function isOperatorAt(clause: string, at: number, operator: Operator | "and"): boolean {
  if (clause.slice(at, at + operator.length).toLowerCase() !== operator) return false;
  if (operator === "=" || operator === "!=") return true;
  const after = clause[at + operator.length];
  return at > 0 && clause[at - 1] === " " && (after === undefined || after === " ");
}

function splitAtAnd(text: string): string[] {
  const parts: string[] = [];
  let start = 0;
  for (let at = 0; at < text.length; at += 1) {
    if (text[at] === '"') at = closingQuote(text, at);
    else if (isOperatorAt(text, at, "and")) {
      parts.push(text.slice(start, at));
      start = at + "and".length;
    }
  }
  parts.push(text.slice(start));
  return parts;
}

function splitAtCommas(text: string): string[] {
  const parts: string[] = [];
  let start = 0;
  for (let at = 0; at < text.length; at += 1) {
    if (text[at] === '"') at = closingQuote(text, at);
    else if (text[at] === ",") {
      parts.push(text.slice(start, at));
      start = at + 1;
    }
  }
  parts.push(text.slice(start));
  return parts;
}

const plainValue = (text: string): string => unquote(text).trim().toLowerCase();

/** Offset of the quote that closes the one at `open`; a doubled quote is part of the text. Throws RangeError without one. */
function closingQuote(text: string, open: number): number {
  for (let at = open + 1; at < text.length; at += 1) {
    if (text[at] !== '"') continue;
    if (text[at + 1] !== '"') return at;
    at += 1;
  }
  throw new RangeError(`The filter "${text.slice(0, 80)}" opens a quote and does not close it.`);
}

function unquote(text: string): string {
  const trimmed = text.trim();
  if (!trimmed.startsWith('"') || closingQuote(trimmed, 0) !== trimmed.length - 1) return trimmed;
  return trimmed.slice(1, -1).replaceAll('""', '"');
}
