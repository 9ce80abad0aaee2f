import type { z } from "zod";
import { nearestNames } from "./nearest-names.ts";

/** Sentences for fields that a schema does not know at a path, each with the nearest names it knows there. */
export function nameFaults(names: readonly string[], path: readonly PropertyKey[], schema: z.ZodType): string[] {
  const known = fieldsAt(schema, path);
  return names.map((name) => nameFault([...path, name].join("."), "field", name, known));
}

/** One sentence for a name that is not known, with the nearest that are. */
export function nameFault(path: string, what: string, name: string, known: readonly string[]): string {
  const nearest = nearestNames(name, known).map((one) => `"${one}"`);
  return `${path}: No such ${what}${nearest.length === 0 ? "" : `; the nearest are ${nearest.join(", ")}`}`;
}

/** As much of a zod schema's definition as is walked. */
interface Definition {
  readonly type: string;
  readonly shape?: Readonly<Record<string, z.ZodType>>;
  readonly innerType?: z.ZodType;
  readonly valueType?: z.ZodType;
  readonly element?: z.ZodType;
  readonly in?: z.ZodType;
}

/** The fields an object schema knows at a path; empty where the path leads to none. */
function fieldsAt(schema: z.ZodType, path: readonly PropertyKey[]): string[] {
  const def = schema.def as unknown as Definition;
  const inner = def.innerType ?? def.in;
  if (inner !== undefined) return fieldsAt(inner, path);
  if (path.length === 0) return Object.keys(def.shape ?? {});
  const [step, ...rest] = path;
  if (def.shape !== undefined) {
    const member = typeof step === "string" && Object.hasOwn(def.shape, step) ? def.shape[step] : undefined;
    return member === undefined ? [] : fieldsAt(member, rest);
  }
  const part = def.valueType ?? def.element;
  return part === undefined ? [] : fieldsAt(part, rest);
}
