import { z } from "zod";
import { type ColumnMap, FIELDS } from "../model/column-map.ts";
import { LAYERS } from "../model/terms.ts";

// Compiled validators need `new Function`, which a strict content security policy forbids.
z.config({ jitless: true });

const UNITS = [
  "m",
  "cm",
  "mm",
  "ft",
  "in",
  "km/h",
  "mph",
  "V",
  "kV",
  "C",
  "F",
  "N",
  "kN",
  "lb",
  "N/m",
  "kg/m",
  "lb/ft",
  "percent",
  "share",
  "degrees",
  "none",
] as const;

const source = z.union([
  z
    .string()
    .min(1)
    .transform((column) => ({ column })),
  z.strictObject({
    column: z.string().min(1).meta({ description: "Name of the city's column" }),
    unit: z.enum(UNITS).optional().meta({ description: "Unit of a bare number in it" }),
    zero: z
      .enum(["value", "unknown"])
      .optional()
      .meta({ description: "What 0 means in it; a dbh of 0 is always unknown" }),
    values: z
      .record(z.string(), z.string())
      .optional()
      .meta({ description: "The city's words to canonical ones, without regard to case" }),
  }),
]);

const layer = (fields: readonly string[]) =>
  z.strictObject(Object.fromEntries(fields.map((field) => [field, source.optional()]))).optional();

/** A column map as JSON: layers, in them canonical fields, in them a column's name or a column with unit, zero and values. */
export const columnMapSchema = z.strictObject(Object.fromEntries(LAYERS.map((name) => [name, layer(FIELDS[name])])));

/** A column map from its JSON value, or its faults as plain sentences. */
export function parseColumnMap(json: unknown): { columns: ColumnMap } | { faults: string[] } {
  const result = columnMapSchema.safeParse(json);
  if (result.success) return { columns: result.data as ColumnMap };
  return { faults: result.error.issues.flatMap((issue) => sentences(issue)) };
}

type Issue = z.core.$ZodIssue;

function sentences(issue: Issue, above: readonly PropertyKey[] = []): string[] {
  const path = [...above, ...issue.path];
  const place = path.length === 0 ? "The column map" : `"${path.map(String).join(".").slice(0, 200)}"`;
  if (issue.code === "invalid_union") {
    const closest = issue.errors.reduce((best, errors) => (depth(errors) > depth(best) ? errors : best));
    if (depth(closest) > 0) return closest.flatMap((one) => sentences(one, path));
    return [`${place} must be the name of a column, or an object with "column" in it`];
  }
  if (issue.code === "unrecognized_keys") {
    const keys = issue.keys.map((key) => `"${key.slice(0, 60)}"`).join(", ");
    return [`${place} has no place for ${keys}; it knows ${knownIn(path)}`];
  }
  if (issue.code === "invalid_value") return [`${place} must be one of ${issue.values.map(String).join(", ")}`];
  if (issue.code === "too_small") return [`${place} must not be empty`];
  if (issue.code === "invalid_type") {
    return [
      `${place} must be ${issue.expected === "record" ? "an object of texts" : `${issue.expected === "object" ? "an" : "a"} ${issue.expected}`}`,
    ];
  }
  return [`${place}: ${issue.message}`];
}

/** How far into an alternative its faults lie: the deepest one is what the writer meant. */
const depth = (issues: readonly Issue[]): number =>
  Math.max(0, ...issues.map((issue) => issue.path.length + (issue.code === "unrecognized_keys" ? 1 : 0)));

function knownIn(path: readonly PropertyKey[]): string {
  if (path.length === 0) return LAYERS.join(", ");
  const name = LAYERS.find((one) => one === path[0]);
  return path.length === 1 && name !== undefined ? FIELDS[name].join(", ") : "column, unit, zero, values";
}
