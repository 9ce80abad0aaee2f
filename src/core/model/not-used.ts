/**
 * The column of a field that a person wants to be fed by no column: a name that says so, since a field left out of a column map is looked up
 * under its own name.
 */
export const NOT_USED = "(not used)";
