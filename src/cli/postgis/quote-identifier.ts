/** A name as an SQL identifier, in double quotes whatever it holds. Throws RangeError for a name that PostgreSQL cannot hold. */
export function quoteIdentifier(name: string): string {
  if (name === "" || name.includes("\u0000"))
    throw new RangeError("Expected a name of one letter or more, without U+0000");
  return `"${name.replaceAll('"', '""')}"`;
}

/** A table's name with its schema, where it has one. */
export const qualified = (schema: string | null, name: string): string =>
  schema === null ? quoteIdentifier(name) : `${quoteIdentifier(schema)}.${quoteIdentifier(name)}`;

/** A text as an SQL literal, for statements that take no bound values (comments). Needs `standard_conforming_strings`, on since 9.1. */
export const quoteLiteral = (text: string): string => `'${text.replaceAll("\u0000", "").replaceAll("'", "''")}'`;
