/** A filter that a person picked: one column and some of its values. */
export interface PickedFilter {
  readonly column: string;
  readonly values: readonly string[];
}

/** The filter as `parseFilter` reads it: `TYPE = Road`, `TYPE one of Road, Alley`; empty without a value. */
export function filterText({ column, values }: PickedFilter): string {
  const [first] = values;
  if (first === undefined || column === "") return "";
  const name = quotedWhere(column, NEEDS_QUOTES);
  if (values.length === 1) return `${name} = ${quotedWhere(first, NEEDS_QUOTES)}`;
  return `${name} one of ${values.map((value) => quotedWhere(value, NEEDS_QUOTES_IN_LIST)).join(", ")}`;
}

/** What reads as a part of the filter, and blanks at the ends, which are cut off. */
const NEEDS_QUOTES =
  /"|=|\s(and|one of|contains|lacks|empty|filled)(\s|$)|^(and|one of|contains|lacks|empty|filled)(\s|$)|^\s|\s$/i;
const NEEDS_QUOTES_IN_LIST = new RegExp(`${NEEDS_QUOTES.source}|,`, "i");

const quotedWhere = (text: string, pattern: RegExp): string =>
  pattern.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
