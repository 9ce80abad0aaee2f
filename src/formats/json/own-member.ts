/** A member of an object that is its own, never one of the prototype's; undefined for anything else. */
export function ownMember(value: unknown, name: string): unknown {
  if (typeof value !== "object" || value === null || !Object.hasOwn(value, name)) return undefined;
  return (value as Record<string, unknown>)[name];
}

/** Whether a parsed value is an object and neither null nor an array. */
export const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
