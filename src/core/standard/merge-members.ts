/** Told of every member that a merge changed: its path, what it was (null where it was not there) and what it is. */
export type OnChange = (path: readonly string[], from: unknown, to: unknown) => void;

/**
 * A JSON value with another's members in place of its own, all the way down; anything but two objects is replaced whole, and so is a
 * `source`, whose parts belong together. Neither value is changed.
 */
export function mergeMembers(base: unknown, over: unknown, path: readonly string[], onChange: OnChange): unknown {
  if (!isMembers(base) || !isMembers(over) || path.at(-1) === "source") {
    if (!isSame(base, over)) onChange(path, base ?? null, over);
    return over;
  }
  const members = new Map(Object.entries(base));
  for (const [name, value] of Object.entries(over)) {
    members.set(name, mergeMembers(members.get(name), value, [...path, name], onChange));
  }
  return Object.fromEntries(members);
}

/** Whether a JSON value is an object with members. */
export const isMembers = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** Whether two JSON values are the same, whatever the order of their members. */
function isSame(a: unknown, b: unknown): boolean {
  if (Array.isArray(a) && Array.isArray(b)) {
    return a.length === b.length && a.every((value, at) => isSame(value, b[at]));
  }
  if (!isMembers(a) || !isMembers(b)) return a === b;
  const names = Object.keys(a);
  return (
    names.length === Object.keys(b).length && names.every((name) => Object.hasOwn(b, name) && isSame(a[name], b[name]))
  );
}
